-- The kind of fault of each reject (RejectCode); unknown for older lines.
ALTER TABLE reject ADD COLUMN code TEXT NOT NULL DEFAULT 'other';
