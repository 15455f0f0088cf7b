-- Where the temperature was going, °C and °C an hour; only for alerts that foresee.
ALTER TABLE alert ADD COLUMN trend_value REAL;
ALTER TABLE alert ADD COLUMN trend_per_hour REAL;
ALTER TABLE alert ADD COLUMN trend_steady REAL;

-- Until now, the figures stood only in the words of the detail.
UPDATE alert SET
  trend_value = CAST(substr(detail, 5) AS REAL),
  trend_per_hour = CAST(substr(detail, instr(detail, 'changing by ') + 12) AS REAL),
  trend_steady = CAST(substr(detail, instr(detail, 'towards about ') + 14) AS REAL)
WHERE detail LIKE 'now % °C and changing by % °C an hour, towards about % °C%';
