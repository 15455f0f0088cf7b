-- Accounts with which sensors log in to the embedded broker. Topic filters are lists in JSON.
CREATE TABLE sensor_account (
  name          TEXT NOT NULL PRIMARY KEY,
  password_hash TEXT NOT NULL,
  topics        TEXT NOT NULL,
  reads         TEXT NOT NULL,
  created_ms    BIGINT NOT NULL
);
-- Where sensors without an account are accepted if the setting anonymousSensors is auto: at most one row, written at
-- the first start.
CREATE TABLE anonymous_sensors (
  accepted TEXT NOT NULL
);
