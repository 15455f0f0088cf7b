-- Mapping rules that were saved on a page, as JSON. Rules of the settings are not here.
CREATE TABLE mapping_rule (
  id       INTEGER PRIMARY KEY AUTOINCREMENT,
  saved_ms BIGINT NOT NULL,
  rule     TEXT NOT NULL
);
