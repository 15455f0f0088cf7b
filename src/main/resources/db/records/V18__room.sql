-- The room or bench in which a container stands, as the grower entered it; null for none.
ALTER TABLE container ADD COLUMN room TEXT;
