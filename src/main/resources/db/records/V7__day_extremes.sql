-- Lowest and highest temperature of a local day (ISO 8601), entered by hand for time without sensors.
CREATE TABLE day_extremes (
  container_id TEXT NOT NULL REFERENCES container (id) ON DELETE CASCADE,
  day          TEXT NOT NULL,
  min_c        REAL NOT NULL,
  max_c        REAL NOT NULL,
  PRIMARY KEY (container_id, day)
);
