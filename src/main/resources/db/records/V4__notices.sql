-- What was told to whom. Instants are epoch milliseconds (_ms).

-- How far each alert or trouble has been told. The key holds the alert's number and when it was
-- raised, so that a number given again means another one.
CREATE TABLE notice_told (
  concern      TEXT NOT NULL PRIMARY KEY,
  topic        TEXT NOT NULL,
  stage        TEXT NOT NULL,
  raised_ms    BIGINT NOT NULL,
  reminded_ms  BIGINT,
  escalated_ms BIGINT
);

CREATE TABLE notice (
  id         INTEGER PRIMARY KEY AUTOINCREMENT,
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
  id         INTEGER PRIMARY KEY AUTOINCREMENT,
  notice_id  BIGINT NOT NULL REFERENCES notice (id) ON DELETE CASCADE,
  notifier   TEXT NOT NULL,
  state      TEXT NOT NULL,
  attempts   INTEGER NOT NULL,
  next_ms    BIGINT NOT NULL,
  settled_ms BIGINT,
  words      TEXT
);

CREATE INDEX notice_delivery_notice ON notice_delivery (notice_id);
CREATE INDEX notice_delivery_waiting ON notice_delivery (next_ms) WHERE state = 'waiting';

-- What the service noticed about itself, the newest of each kind.
CREATE TABLE service_trouble (
  kind     TEXT NOT NULL PRIMARY KEY,
  since_ms BIGINT NOT NULL,
  ended_ms BIGINT,
  detail   TEXT NOT NULL
);
