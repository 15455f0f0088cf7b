-- Each quantity over the covered time of the hour, on straight lines between readings: w1 to w4 are
-- temperature, humidity, light and battery: covered time in ms, mean over time, sum of squares about
-- it in unit² ms, lowest and highest value.
ALTER TABLE hour ADD COLUMN w1_ms INTEGER NOT NULL DEFAULT 0;
ALTER TABLE hour ADD COLUMN w1_mean REAL;
ALTER TABLE hour ADD COLUMN w1_squares REAL;
ALTER TABLE hour ADD COLUMN w1_min REAL;
ALTER TABLE hour ADD COLUMN w1_max REAL;
ALTER TABLE hour ADD COLUMN w2_ms INTEGER NOT NULL DEFAULT 0;
ALTER TABLE hour ADD COLUMN w2_mean REAL;
ALTER TABLE hour ADD COLUMN w2_squares REAL;
ALTER TABLE hour ADD COLUMN w2_min REAL;
ALTER TABLE hour ADD COLUMN w2_max REAL;
ALTER TABLE hour ADD COLUMN w3_ms INTEGER NOT NULL DEFAULT 0;
ALTER TABLE hour ADD COLUMN w3_mean REAL;
ALTER TABLE hour ADD COLUMN w3_squares REAL;
ALTER TABLE hour ADD COLUMN w3_min REAL;
ALTER TABLE hour ADD COLUMN w3_max REAL;
ALTER TABLE hour ADD COLUMN w4_ms INTEGER NOT NULL DEFAULT 0;
ALTER TABLE hour ADD COLUMN w4_mean REAL;
ALTER TABLE hour ADD COLUMN w4_squares REAL;
ALTER TABLE hour ADD COLUMN w4_min REAL;
ALTER TABLE hour ADD COLUMN w4_max REAL;
DELETE FROM hour WHERE hour_ms >= (SELECT at_ms FROM raw_from);
-- Of older hours the raw readings have been let go: the mean of their readings is the best that is
-- known, and the sum of squares stays unknown (NULL).
UPDATE hour SET w1_ms = covered_ms, w1_mean = s1_sum / s1_n, w1_min = s1_min, w1_max = s1_max
  WHERE s1_n > 0;
UPDATE hour SET w2_ms = dry_seen_ms, w2_mean = s2_sum / s2_n, w2_min = s2_min, w2_max = s2_max
  WHERE s2_n > 0;
UPDATE hour SET w3_ms = light_seen_ms, w3_mean = s3_sum / s3_n, w3_min = s3_min, w3_max = s3_max
  WHERE s3_n > 0;
UPDATE hour SET w4_ms = s4_last_ms - s4_first_ms, w4_mean = s4_sum / s4_n, w4_min = s4_min, w4_max = s4_max
  WHERE s4_n > 0;
