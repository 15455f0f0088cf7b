-- One row for each time a service took the database: when, and the mark of its last committed change. A change whose
-- commit got no answer was stored if its mark is here: the number of a transaction cannot tell, because a server that
-- crashed gives the number of a lost transaction to the next one.
CREATE TABLE ownership (
  epoch       BIGINT PRIMARY KEY,
  owner       TEXT NOT NULL,
  since       TIMESTAMPTZ NOT NULL DEFAULT clock_timestamp(),
  last_change UUID
);
