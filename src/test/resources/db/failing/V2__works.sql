UPDATE entry SET words = 'changed';
ALTER TABLE entry ADD COLUMN more TEXT;
