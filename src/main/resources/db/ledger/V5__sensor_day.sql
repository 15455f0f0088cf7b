-- Results of the fault rules for one sensor and one day, in days since 1970-01-01 (UTC). Derived from the readings.
CREATE TABLE sensor_day (
  sensor  TEXT NOT NULL,
  day     INTEGER NOT NULL,
  rules   INTEGER NOT NULL,
  content BLOB NOT NULL,
  PRIMARY KEY (sensor, day)
) WITHOUT ROWID;
