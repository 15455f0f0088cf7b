-- When the attempt began that has no known outcome yet; null for none.
ALTER TABLE notice_delivery ADD COLUMN claimed_ms BIGINT;
CREATE INDEX notice_delivery_claimed ON notice_delivery (id) WHERE claimed_ms IS NOT NULL;
