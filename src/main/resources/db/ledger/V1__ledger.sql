-- What adds up, by container and hour; derived from the readings and kept when they are not.
-- Durations are milliseconds, instants epoch milliseconds (_ms); s1 to s4 are the summaries of
-- temperature, humidity, light and battery: count, sum, least, greatest, first and last instant.
CREATE TABLE hour (
  container_id   TEXT NOT NULL,
  hour_ms        INTEGER NOT NULL,
  basis          INTEGER NOT NULL,
  degree_hours   REAL NOT NULL,
  above_hours    REAL NOT NULL,
  covered_ms     INTEGER NOT NULL,
  gap_ms         INTEGER NOT NULL,
  lux_hours      REAL NOT NULL,
  cold_ms        REAL NOT NULL,
  hot_ms         REAL NOT NULL,
  light_ms       REAL NOT NULL,
  light_seen_ms  INTEGER NOT NULL,
  dry_ms         REAL NOT NULL,
  dry_seen_ms    INTEGER NOT NULL,
  s1_n INTEGER NOT NULL, s1_sum REAL, s1_min REAL, s1_max REAL, s1_first_ms INTEGER, s1_last_ms INTEGER,
  s2_n INTEGER NOT NULL, s2_sum REAL, s2_min REAL, s2_max REAL, s2_first_ms INTEGER, s2_last_ms INTEGER,
  s3_n INTEGER NOT NULL, s3_sum REAL, s3_min REAL, s3_max REAL, s3_first_ms INTEGER, s3_last_ms INTEGER,
  s4_n INTEGER NOT NULL, s4_sum REAL, s4_min REAL, s4_max REAL, s4_first_ms INTEGER, s4_last_ms INTEGER,
  PRIMARY KEY (container_id, hour_ms)
) STRICT, WITHOUT ROWID;

-- One row: before this instant raw readings have been let go, and hours are kept as they are.
CREATE TABLE raw_from (
  only_row INTEGER NOT NULL PRIMARY KEY CHECK (only_row = 1),
  at_ms    INTEGER NOT NULL
) STRICT;
INSERT INTO raw_from VALUES (1, 0);
