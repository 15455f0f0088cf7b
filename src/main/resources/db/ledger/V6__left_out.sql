-- The part of gap_ms that readings of temperature would cover if none were left out because of faults, ms.
-- Hours with a gap are calculated again. Where the raw readings were deleted it is not known and stays 0.
ALTER TABLE hour ADD COLUMN left_out_ms INTEGER NOT NULL DEFAULT 0;
DELETE FROM hour WHERE gap_ms > 0 AND hour_ms >= (SELECT at_ms FROM raw_from);
