-- How a reading came whose sensor sent no time of its own: the packet identifier of its delivery (0 for
-- none), whether the broker marked it as delivered before, whether its time is uncertain. NULL for all
-- others.
ALTER TABLE waiting ADD COLUMN delivery INTEGER;
ALTER TABLE waiting ADD COLUMN again INTEGER;
ALTER TABLE waiting ADD COLUMN uncertain INTEGER;
