-- The small, precious record. Instants are epoch milliseconds (_ms).
CREATE TABLE container (
  id                     TEXT NOT NULL PRIMARY KEY,
  name                   TEXT NOT NULL,
  kind                   TEXT NOT NULL,
  heat_source            TEXT,
  base_c                 REAL NOT NULL,
  ceiling_c              REAL,
  temperature_low_c      REAL NOT NULL,
  temperature_high_c     REAL NOT NULL,
  light_high_lux         REAL NOT NULL,
  humidity_low_percent   REAL NOT NULL,
  created_ms             BIGINT NOT NULL
);

-- container_id may be 'room', which is no container, hence no foreign key.
CREATE TABLE placement (
  sensor       TEXT NOT NULL,
  container_id TEXT NOT NULL,
  from_ms      BIGINT NOT NULL,
  until_ms     BIGINT,
  PRIMARY KEY (sensor, from_ms)
);

CREATE TABLE calibration (
  sensor                  TEXT NOT NULL PRIMARY KEY,
  temperature_offset_c    REAL NOT NULL,
  humidity_offset_percent REAL NOT NULL,
  temperature_error_c     REAL NOT NULL
);

CREATE TABLE opening (
  container_id TEXT NOT NULL REFERENCES container (id) ON DELETE CASCADE,
  from_ms      BIGINT NOT NULL,
  until_ms     BIGINT NOT NULL,
  PRIMARY KEY (container_id, from_ms)
);

CREATE TABLE alert (
  id              INTEGER PRIMARY KEY,
  container_id    TEXT NOT NULL REFERENCES container (id) ON DELETE CASCADE,
  kind            TEXT NOT NULL,
  limit_value     REAL NOT NULL,
  since_ms        BIGINT NOT NULL,
  raised_ms       BIGINT NOT NULL,
  returned_ms     BIGINT,
  acknowledged_ms BIGINT,
  acknowledged_by TEXT,
  shelved_ms      BIGINT,
  latest_value    REAL NOT NULL,
  worst_value     REAL NOT NULL
);

CREATE INDEX alert_open ON alert (container_id) WHERE returned_ms IS NULL OR acknowledged_ms IS NULL;

-- What came over MQTT and could not be read; only the newest are kept, the numbers go on.
CREATE TABLE reject (
  id      INTEGER PRIMARY KEY AUTOINCREMENT,
  at_ms   BIGINT NOT NULL,
  topic   TEXT NOT NULL,
  reason  TEXT NOT NULL,
  payload TEXT NOT NULL
);
