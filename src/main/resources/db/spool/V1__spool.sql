-- Readings that wait for the readings store, in the order in which they came. Values are whole
-- millionths of their unit (°C, %, lux, V).
CREATE TABLE waiting (
  id          INTEGER PRIMARY KEY,
  sensor      TEXT NOT NULL,
  at_ms       INTEGER NOT NULL,
  temperature INTEGER,
  humidity    INTEGER,
  light       INTEGER,
  battery     INTEGER
) STRICT;
