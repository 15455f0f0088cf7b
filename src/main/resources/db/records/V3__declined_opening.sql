-- Suggested openings that the grower said were none: not to be offered again. Instants are epoch
-- milliseconds (_ms).
CREATE TABLE declined_opening (
  container_id TEXT NOT NULL REFERENCES container (id) ON DELETE CASCADE,
  from_ms      BIGINT NOT NULL,
  until_ms     BIGINT NOT NULL,
  PRIMARY KEY (container_id, from_ms)
);
