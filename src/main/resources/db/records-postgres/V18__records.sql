-- The records as they are after script 18 of SQLite (db/records). Later scripts have the same numbers in both
-- folders. Instants are epoch milliseconds (_ms). Text that is sorted has the collation C, so that both databases
-- sort alike.
CREATE TABLE container (
  id                   TEXT PRIMARY KEY,
  name                 TEXT NOT NULL,
  kind                 TEXT NOT NULL,
  heat_source          TEXT,
  base_c               DOUBLE PRECISION NOT NULL,
  ceiling_c            DOUBLE PRECISION,
  temperature_low_c    DOUBLE PRECISION NOT NULL,
  temperature_high_c   DOUBLE PRECISION NOT NULL,
  light_high_lux       DOUBLE PRECISION NOT NULL,
  humidity_low_percent DOUBLE PRECISION NOT NULL,
  created_ms           BIGINT NOT NULL,
  -- The room or bench in which it stands, as the grower entered it.
  room                 TEXT
);

-- container_id may be 'room', which is no container, hence no foreign key.
CREATE TABLE placement (
  sensor       TEXT COLLATE "C" NOT NULL,
  container_id TEXT NOT NULL,
  from_ms      BIGINT NOT NULL,
  until_ms     BIGINT,
  PRIMARY KEY (sensor, from_ms)
);

CREATE TABLE calibration (
  sensor                  TEXT PRIMARY KEY,
  temperature_offset_c    DOUBLE PRECISION NOT NULL,
  humidity_offset_percent DOUBLE PRECISION NOT NULL,
  temperature_error_c     DOUBLE PRECISION NOT NULL
);

-- A removed point stays, with the instant of its removal. Values are in the unit of the quantity.
CREATE TABLE calibration_point (
  id          BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  sensor      TEXT NOT NULL,
  quantity    TEXT NOT NULL,
  at_ms       BIGINT NOT NULL,
  reading     DOUBLE PRECISION NOT NULL,
  true_value  DOUBLE PRECISION NOT NULL,
  uncertainty DOUBLE PRECISION NOT NULL,
  method      TEXT NOT NULL,
  note        TEXT,
  recorded_ms BIGINT NOT NULL,
  removed_ms  BIGINT
);

CREATE TABLE opening (
  container_id TEXT NOT NULL REFERENCES container (id) ON DELETE CASCADE,
  from_ms      BIGINT NOT NULL,
  until_ms     BIGINT NOT NULL,
  PRIMARY KEY (container_id, from_ms)
);

-- Suggested openings that the grower said were none.
CREATE TABLE declined_opening (
  container_id TEXT NOT NULL REFERENCES container (id) ON DELETE CASCADE,
  from_ms      BIGINT NOT NULL,
  until_ms     BIGINT NOT NULL,
  PRIMARY KEY (container_id, from_ms)
);

-- Lowest and highest temperature of a local day (ISO 8601), entered by hand for time without sensors.
CREATE TABLE day_extremes (
  container_id TEXT NOT NULL REFERENCES container (id) ON DELETE CASCADE,
  day          TEXT COLLATE "C" NOT NULL,
  min_c        DOUBLE PRECISION NOT NULL,
  max_c        DOUBLE PRECISION NOT NULL,
  PRIMARY KEY (container_id, day)
);

CREATE TABLE sensor_details (
  sensor      TEXT PRIMARY KEY,
  name        TEXT,
  note        TEXT,
  empty_volts DOUBLE PRECISION,
  retired_ms  BIGINT
);

CREATE TABLE sensor_status (
  sensor   TEXT PRIMARY KEY,
  at_ms    BIGINT NOT NULL,
  rssi_dbm INTEGER,
  firmware TEXT
);

CREATE TABLE alert (
  id              BIGINT PRIMARY KEY,
  container_id    TEXT NOT NULL REFERENCES container (id) ON DELETE CASCADE,
  kind            TEXT NOT NULL,
  limit_value     DOUBLE PRECISION NOT NULL,
  since_ms        BIGINT NOT NULL,
  raised_ms       BIGINT NOT NULL,
  returned_ms     BIGINT,
  acknowledged_ms BIGINT,
  acknowledged_by TEXT,
  shelved_ms      BIGINT,
  latest_value    DOUBLE PRECISION NOT NULL,
  worst_value     DOUBLE PRECISION NOT NULL,
  priority        TEXT NOT NULL DEFAULT 'medium',
  shelved_by      TEXT,
  detail          TEXT,
  forecast_ms     BIGINT,
  found_late      BOOLEAN NOT NULL DEFAULT FALSE
);
CREATE INDEX alert_open ON alert (container_id) WHERE returned_ms IS NULL OR acknowledged_ms IS NULL;
CREATE INDEX alert_raised ON alert (raised_ms);

-- One row: the highest number ever given.
CREATE TABLE alert_last_id (id BIGINT NOT NULL);
INSERT INTO alert_last_id (id) VALUES (0);

-- alert_id is null where a kind changes its service without an alert being open.
CREATE TABLE alert_transition (
  id           BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  alert_id     BIGINT REFERENCES alert (id) ON DELETE CASCADE,
  container_id TEXT NOT NULL REFERENCES container (id) ON DELETE CASCADE,
  kind         TEXT NOT NULL,
  what         TEXT NOT NULL,
  at_ms        BIGINT NOT NULL,
  recorded_ms  BIGINT NOT NULL,
  done_by      TEXT,
  note         TEXT
);
CREATE INDEX alert_transition_alert ON alert_transition (alert_id);
CREATE INDEX alert_transition_container ON alert_transition (container_id, kind);

CREATE TABLE alert_condition (
  container_id TEXT NOT NULL REFERENCES container (id) ON DELETE CASCADE,
  kind         TEXT NOT NULL,
  since_ms     BIGINT,
  active       BOOLEAN NOT NULL,
  clear_ms     BIGINT,
  last_ms      BIGINT,
  worst_value  DOUBLE PRECISION,
  PRIMARY KEY (container_id, kind)
);

CREATE TABLE alert_rule (
  container_id TEXT NOT NULL REFERENCES container (id) ON DELETE CASCADE,
  kind         TEXT NOT NULL,
  limit_value  DOUBLE PRECISION,
  deadband     DOUBLE PRECISION,
  on_delay_ms  BIGINT,
  off_delay_ms BIGINT,
  priority     TEXT,
  out_ms       BIGINT,
  out_by       TEXT,
  out_reason   TEXT,
  PRIMARY KEY (container_id, kind)
);

CREATE TABLE notice_told (
  concern      TEXT PRIMARY KEY,
  topic        TEXT NOT NULL,
  stage        TEXT NOT NULL,
  raised_ms    BIGINT NOT NULL,
  reminded_ms  BIGINT,
  escalated_ms BIGINT
);

CREATE TABLE notice (
  id         BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  kind       TEXT NOT NULL,
  priority   TEXT NOT NULL,
  created_ms BIGINT NOT NULL,
  subject    TEXT NOT NULL,
  body       TEXT NOT NULL,
  link       TEXT
);

-- container_id may name one that is no more, hence no foreign key.
CREATE TABLE notice_about (
  notice_id    BIGINT NOT NULL REFERENCES notice (id) ON DELETE CASCADE,
  position     INTEGER NOT NULL,
  alert_id     BIGINT,
  container_id TEXT,
  topic        TEXT NOT NULL,
  active       BOOLEAN NOT NULL,
  PRIMARY KEY (notice_id, position)
);

-- The outbox: one line for each notice and notifier.
CREATE TABLE notice_delivery (
  id         BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  notice_id  BIGINT NOT NULL REFERENCES notice (id) ON DELETE CASCADE,
  notifier   TEXT COLLATE "C" NOT NULL,
  state      TEXT NOT NULL,
  attempts   INTEGER NOT NULL,
  next_ms    BIGINT NOT NULL,
  settled_ms BIGINT,
  words      TEXT
);
CREATE INDEX notice_delivery_notice ON notice_delivery (notice_id);
CREATE INDEX notice_delivery_waiting ON notice_delivery (next_ms) WHERE state = 'waiting';

CREATE TABLE service_trouble (
  kind     TEXT COLLATE "C" PRIMARY KEY,
  since_ms BIGINT NOT NULL,
  ended_ms BIGINT,
  detail   TEXT NOT NULL
);

CREATE TABLE reject (
  id      BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  at_ms   BIGINT NOT NULL,
  topic   TEXT NOT NULL,
  reason  TEXT NOT NULL,
  payload TEXT NOT NULL,
  code    TEXT NOT NULL DEFAULT 'other'
);

CREATE TABLE fault_decision (
  id         BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  sensor     TEXT NOT NULL,
  quantity   TEXT,
  kind       TEXT NOT NULL,
  from_ms    BIGINT NOT NULL,
  to_ms      BIGINT NOT NULL,
  excluded   BOOLEAN NOT NULL,
  decided_ms BIGINT NOT NULL,
  decided_by TEXT NOT NULL
);

CREATE TABLE arrival_fault (
  id       BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  sensor   TEXT NOT NULL,
  quantity TEXT,
  kind     TEXT NOT NULL,
  from_ms  BIGINT NOT NULL,
  to_ms    BIGINT NOT NULL,
  readings INTEGER NOT NULL,
  low      DOUBLE PRECISION NOT NULL,
  high     DOUBLE PRECISION NOT NULL
);
CREATE INDEX arrival_fault_of_sensor ON arrival_fault (sensor, to_ms);

CREATE TABLE species (
  id   TEXT COLLATE "C" PRIMARY KEY,
  name TEXT COLLATE "C" NOT NULL
);

CREATE TABLE species_figure (
  species_id TEXT COLLATE "C" NOT NULL REFERENCES species (id) ON DELETE CASCADE,
  trait      TEXT NOT NULL,
  figure     DOUBLE PRECISION NOT NULL,
  source     TEXT NOT NULL,
  PRIMARY KEY (species_id, trait)
);

CREATE TABLE seed_lot (
  id          BIGINT PRIMARY KEY,
  species_id  TEXT COLLATE "C" NOT NULL REFERENCES species (id),
  name        TEXT,
  seeds       INTEGER NOT NULL,
  gathered_ms BIGINT NOT NULL,
  origin      TEXT NOT NULL,
  place       TEXT,
  kept        TEXT,
  remark      TEXT
);

-- Only ever added to; a line that was wrong is named by the line that corrects it. What was done is one JSON
-- object (act).
CREATE TABLE seed_entry (
  number      BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  id          TEXT NOT NULL UNIQUE,
  sowing      BIGINT NOT NULL,
  at_ms       BIGINT NOT NULL,
  recorded_ms BIGINT NOT NULL,
  lot_id      BIGINT REFERENCES seed_lot (id),
  recorded_by TEXT,
  remark      TEXT,
  corrects    TEXT UNIQUE REFERENCES seed_entry (id),
  reason      TEXT,
  request     TEXT,
  act         TEXT NOT NULL DEFAULT '{}'
);

CREATE TABLE seed_photo (
  entry_id TEXT PRIMARY KEY REFERENCES seed_entry (id),
  picture  BYTEA NOT NULL
);

CREATE TABLE season (
  id       BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  name     TEXT NOT NULL,
  -- The name in lower case: two that differ in case alone are taken for one.
  name_key TEXT NOT NULL UNIQUE,
  from_ms  BIGINT NOT NULL,
  to_ms    BIGINT NOT NULL,
  kept_ms  BIGINT NOT NULL,
  remark   TEXT,
  report   TEXT NOT NULL
);

-- One row: the last instant at which the clock of the machine was trusted.
CREATE TABLE clock_seen (
  only_row INTEGER PRIMARY KEY CHECK (only_row = 1),
  seen_ms  BIGINT NOT NULL
);

-- Mapping rules that were saved on a page, as JSON.
CREATE TABLE mapping_rule (
  id       BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  saved_ms BIGINT NOT NULL,
  rule     TEXT NOT NULL
);

CREATE TABLE import_profile (
  name    TEXT COLLATE "C" PRIMARY KEY,
  choices TEXT NOT NULL
);

-- People who can sign in, their sessions, and tokens for programs. Secrets are stored as hashes only.
CREATE TABLE person (
  id            BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  name          TEXT NOT NULL,
  role          TEXT NOT NULL,
  password_hash TEXT NOT NULL
);

CREATE TABLE session (
  id         BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  hash       TEXT NOT NULL UNIQUE,
  person     BIGINT NOT NULL REFERENCES person (id),
  started_ms BIGINT NOT NULL,
  used_ms    BIGINT NOT NULL,
  year_long  BOOLEAN NOT NULL,
  address    TEXT NOT NULL,
  device     TEXT NOT NULL
);

CREATE TABLE api_token (
  id         BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  name       TEXT NOT NULL,
  role       TEXT NOT NULL,
  hash       TEXT NOT NULL UNIQUE,
  created_ms BIGINT NOT NULL,
  ends_ms    BIGINT NOT NULL,
  used_ms    BIGINT
);

-- Accounts of sensors on the embedded broker. Topic filters are lists in JSON.
CREATE TABLE sensor_account (
  name          TEXT COLLATE "C" PRIMARY KEY,
  password_hash TEXT NOT NULL,
  topics        TEXT NOT NULL,
  reads         TEXT NOT NULL,
  created_ms    BIGINT NOT NULL
);

CREATE TABLE anonymous_sensors (accepted TEXT NOT NULL);

-- One row: which service owns the database, and until when, by the clock of the database. The epoch is raised each
-- time somebody takes it. Files have no such table, because a lock of the data folder does the same there.
CREATE TABLE lease (
  only_row INTEGER PRIMARY KEY CHECK (only_row = 1),
  owner    TEXT NOT NULL,
  epoch    BIGINT NOT NULL,
  ends_at  TIMESTAMPTZ NOT NULL
);
INSERT INTO lease (only_row, owner, epoch, ends_at) VALUES (1, '', 0, '-infinity');

-- To begin with; each figure is common practice without a source until the grower knows better.
INSERT INTO species (id, name) VALUES
  ('cacao', 'Cacao'), ('lychee', 'Lychee'), ('fresh-tropical-seed', 'Fresh tropical seed');

INSERT INTO species_figure (species_id, trait, figure, source) VALUES
  ('cacao', 'base', 15, 'common practice, no source'),
  ('cacao', 'optimum', 30, 'common practice, no source'),
  ('cacao', 'ceiling', 36, 'common practice, no source'),
  ('cacao', 'firstDays', 5, 'common practice, no source'),
  ('cacao', 'giveUpDays', 42, 'common practice, no source'),
  ('cacao', 'fraction', 0.8, 'common practice, no source'),
  ('cacao', 'rootCm', 3, 'common practice, no source'),
  ('cacao', 'keepsDays', 7, 'common practice, no source'),
  ('lychee', 'base', 15, 'common practice, no source'),
  ('lychee', 'optimum', 30, 'common practice, no source'),
  ('lychee', 'ceiling', 36, 'common practice, no source'),
  ('lychee', 'firstDays', 8, 'common practice, no source'),
  ('lychee', 'giveUpDays', 42, 'common practice, no source'),
  ('lychee', 'fraction', 0.7, 'common practice, no source'),
  ('lychee', 'rootCm', 3, 'common practice, no source'),
  ('lychee', 'keepsDays', 5, 'common practice, no source'),
  ('fresh-tropical-seed', 'base', 15, 'common practice, no source'),
  ('fresh-tropical-seed', 'optimum', 30, 'common practice, no source'),
  ('fresh-tropical-seed', 'firstDays', 10, 'common practice, no source'),
  ('fresh-tropical-seed', 'giveUpDays', 42, 'common practice, no source'),
  ('fresh-tropical-seed', 'fraction', 0.18, 'common practice, no source'),
  ('fresh-tropical-seed', 'rootCm', 3, 'common practice, no source'),
  ('fresh-tropical-seed', 'keepsDays', 14, 'common practice, no source');
