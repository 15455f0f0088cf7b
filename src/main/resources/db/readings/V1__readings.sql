-- Raw readings, as the sensors sent them. Values are whole millionths of their unit (°C, %, lux, V):
-- nothing that a sensor can resolve is lost, and a row takes about 28 bytes.
CREATE TABLE sensor (
  id   INTEGER PRIMARY KEY,
  name TEXT NOT NULL UNIQUE
) STRICT;

CREATE TABLE reading (
  sensor_id   INTEGER NOT NULL REFERENCES sensor (id),
  at_ms       INTEGER NOT NULL,
  temperature INTEGER,
  humidity    INTEGER,
  light       INTEGER,
  battery     INTEGER,
  PRIMARY KEY (sensor_id, at_ms)
) STRICT, WITHOUT ROWID;
