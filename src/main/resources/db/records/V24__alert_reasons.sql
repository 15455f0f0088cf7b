-- Why the service raised or changed an alert: JSON, a list of codes with their figures; NULL where there is none.
ALTER TABLE alert ADD COLUMN reasons TEXT;
ALTER TABLE alert_transition ADD COLUMN reasons TEXT;
