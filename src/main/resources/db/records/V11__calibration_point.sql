-- Calibration points of sensors. A removed point stays, with the instant of its removal. Readings, true
-- values and standard uncertainties are in the unit of the quantity; instants are epoch milliseconds.
CREATE TABLE calibration_point (
  id          INTEGER PRIMARY KEY AUTOINCREMENT,
  sensor      TEXT NOT NULL,
  quantity    TEXT NOT NULL,
  at_ms       BIGINT NOT NULL,
  reading     REAL NOT NULL,
  true_value  REAL NOT NULL,
  uncertainty REAL NOT NULL,
  method      TEXT NOT NULL,
  note        TEXT,
  recorded_ms BIGINT NOT NULL,
  removed_ms  BIGINT
);
