-- For how long it was how warm in the hour: the first step of a quarter of a degree (2 bytes), then for
-- each step from there the hours in it and the °C·h of them (8 bytes each, big-endian doubles). NULL
-- where the hour is older and its raw readings have been let go; all others are worked out again.
ALTER TABLE hour ADD COLUMN warmth BLOB;
DELETE FROM hour WHERE hour_ms >= (SELECT at_ms FROM raw_from);
