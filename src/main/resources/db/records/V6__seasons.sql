-- Seasons as they were when they were kept. Instants are epoch milliseconds (_ms).
CREATE TABLE season (
  id       INTEGER PRIMARY KEY AUTOINCREMENT,
  name     TEXT NOT NULL,
  -- The name in lower case, since two that differ in case alone would be taken for one.
  name_key TEXT NOT NULL UNIQUE,
  from_ms  BIGINT NOT NULL,
  to_ms    BIGINT NOT NULL,
  kept_ms  BIGINT NOT NULL,
  remark   TEXT,
  report   TEXT NOT NULL
);
