-- delivery: the packet identifier under which the broker delivered a reading whose sensor sent no time
-- of its own; NULL for all others. A repeated delivery is known by it.
ALTER TABLE reading ADD COLUMN delivery INTEGER;

-- Readings without a time of their own that waited in the broker while the service was away. at_ms is
-- when they arrived, so it tells their order but not when they were measured.
CREATE TABLE uncertain_reading (
  sensor_id   INTEGER NOT NULL REFERENCES sensor (id),
  at_ms       INTEGER NOT NULL,
  temperature INTEGER,
  humidity    INTEGER,
  light       INTEGER,
  battery     INTEGER,
  delivery    INTEGER,
  PRIMARY KEY (sensor_id, at_ms)
) STRICT, WITHOUT ROWID;
