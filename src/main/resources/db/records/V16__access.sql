-- People who can sign in, their sessions, and tokens for programs. Secrets are stored as hashes only.
CREATE TABLE person (
  id            INTEGER PRIMARY KEY AUTOINCREMENT,
  name          TEXT NOT NULL,
  role          TEXT NOT NULL,
  password_hash TEXT NOT NULL
);
CREATE TABLE session (
  id          INTEGER PRIMARY KEY AUTOINCREMENT,
  hash        TEXT NOT NULL UNIQUE,
  person      BIGINT NOT NULL REFERENCES person(id),
  started_ms  BIGINT NOT NULL,
  used_ms     BIGINT NOT NULL,
  year_long   BOOLEAN NOT NULL,
  address     TEXT NOT NULL,
  device      TEXT NOT NULL
);
CREATE TABLE api_token (
  id         INTEGER PRIMARY KEY AUTOINCREMENT,
  name       TEXT NOT NULL,
  role       TEXT NOT NULL,
  hash       TEXT NOT NULL UNIQUE,
  created_ms BIGINT NOT NULL,
  ends_ms    BIGINT NOT NULL,
  used_ms    BIGINT
);
