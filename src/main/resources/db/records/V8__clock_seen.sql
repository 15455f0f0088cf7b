-- One row: the last instant at which the clock of the machine was trusted, epoch milliseconds.
CREATE TABLE clock_seen (
  only_row INTEGER NOT NULL PRIMARY KEY CHECK (only_row = 1),
  seen_ms  BIGINT NOT NULL
);
