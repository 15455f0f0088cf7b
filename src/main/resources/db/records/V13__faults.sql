-- Decisions about faulty stretches of readings. A decision is never changed; a later one replaces it where
-- they overlap. No quantity: all quantities of the sensor. Instants are epoch milliseconds, ends included.
CREATE TABLE fault_decision (
  id         INTEGER PRIMARY KEY AUTOINCREMENT,
  sensor     TEXT NOT NULL,
  quantity   TEXT,
  kind       TEXT NOT NULL,
  from_ms    BIGINT NOT NULL,
  to_ms      BIGINT NOT NULL,
  excluded   BOOLEAN NOT NULL,
  decided_ms BIGINT NOT NULL,
  decided_by TEXT NOT NULL
);

-- Faulty values and times noticed when messages arrived, joined to stretches. The values were refused and are
-- not among the readings. Values are in the unit of the quantity; minutes for a wrong clock.
CREATE TABLE arrival_fault (
  id       INTEGER PRIMARY KEY AUTOINCREMENT,
  sensor   TEXT NOT NULL,
  quantity TEXT,
  kind     TEXT NOT NULL,
  from_ms  BIGINT NOT NULL,
  to_ms    BIGINT NOT NULL,
  readings INTEGER NOT NULL,
  low      REAL NOT NULL,
  high     REAL NOT NULL
);
CREATE INDEX arrival_fault_of_sensor ON arrival_fault (sensor, to_ms);
