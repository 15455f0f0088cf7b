-- The number of a seed lot in the register of a seed bank; null for none.
ALTER TABLE seed_lot ADD COLUMN accession TEXT;
