-- Each time another machine took the database over. The reason is its key, such as ended.
CREATE TABLE take_over (
  id       BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  at_ms    BIGINT NOT NULL,
  machine  TEXT NOT NULL,
  previous TEXT NOT NULL,
  reason   TEXT NOT NULL
);

-- Why the owner gave the lease back; null if it did not.
ALTER TABLE lease ADD COLUMN given_back TEXT;

-- The services that wait for the lease. No record, like the lease itself.
CREATE TABLE waiting_service (
  owner          TEXT PRIMARY KEY,
  seen_at        TIMESTAMPTZ NOT NULL,
  reaches_broker BOOLEAN NOT NULL
);
