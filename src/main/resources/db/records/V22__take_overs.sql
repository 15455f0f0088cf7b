-- Each time another machine took the database over. The reason is its key, such as ended.
CREATE TABLE take_over (
  id       INTEGER PRIMARY KEY AUTOINCREMENT,
  at_ms    INTEGER NOT NULL,
  machine  TEXT NOT NULL,
  previous TEXT NOT NULL,
  reason   TEXT NOT NULL
);
