-- Where the temperature was going, °C and °C an hour; only for alerts that foresee.
ALTER TABLE alert ADD COLUMN trend_value DOUBLE PRECISION;
ALTER TABLE alert ADD COLUMN trend_per_hour DOUBLE PRECISION;
ALTER TABLE alert ADD COLUMN trend_steady DOUBLE PRECISION;

-- Until now, the figures stood only in the words of the detail.
UPDATE alert SET
  trend_value = substring(detail FROM '^now ([-+0-9.]+) ')::double precision,
  trend_per_hour = substring(detail FROM 'changing by ([-+0-9.]+) ')::double precision,
  trend_steady = substring(detail FROM 'towards about ([-+0-9.]+) ')::double precision
WHERE detail LIKE 'now % °C and changing by % °C an hour, towards about % °C%';
