DELETE FROM entry;
-- Runs for minutes; a test kills it.
INSERT INTO entry WITH RECURSIVE n(value) AS (SELECT 1 UNION ALL SELECT value + 1 FROM n LIMIT 1000000000)
  SELECT value, hex(randomblob(500)) FROM n;
