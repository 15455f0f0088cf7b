-- What the grower entered about a sensor, and its newest report about itself. Instants are epoch
-- milliseconds (_ms).
CREATE TABLE sensor_details (
  sensor      TEXT NOT NULL PRIMARY KEY,
  name        TEXT,
  note        TEXT,
  empty_volts REAL,
  retired_ms  BIGINT
);

CREATE TABLE sensor_status (
  sensor   TEXT NOT NULL PRIMARY KEY,
  at_ms    BIGINT NOT NULL,
  rssi_dbm INTEGER,
  firmware TEXT
);
