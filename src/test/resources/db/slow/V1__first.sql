CREATE TABLE entry (number INTEGER PRIMARY KEY, words TEXT);
INSERT INTO entry VALUES (1, 'precious');
