-- The epoch of the database of the records under which the sums were last kept up to date, if that database is
-- shared. Another service may have stored readings under another epoch.
CREATE TABLE records_epoch (epoch INTEGER NOT NULL);
INSERT INTO records_epoch (epoch) VALUES (-1);
