-- The life cycle of alerts. Instants are epoch milliseconds (_ms).
ALTER TABLE alert ADD COLUMN priority TEXT NOT NULL DEFAULT 'medium';
ALTER TABLE alert ADD COLUMN shelved_by TEXT;
ALTER TABLE alert ADD COLUMN detail TEXT;
ALTER TABLE alert ADD COLUMN forecast_ms BIGINT;
ALTER TABLE alert ADD COLUMN found_late INTEGER NOT NULL DEFAULT 0;

CREATE INDEX alert_raised ON alert (raised_ms);

-- One row: the highest number ever given, so that none is given again once alerts are deleted.
CREATE TABLE alert_last_id (id BIGINT NOT NULL);
INSERT INTO alert_last_id (id) SELECT coalesce(max(id), 0) FROM alert;

-- alert_id is null where a kind changes its service without an alert being open.
CREATE TABLE alert_transition (
  id           INTEGER PRIMARY KEY AUTOINCREMENT,
  alert_id     BIGINT REFERENCES alert (id) ON DELETE CASCADE,
  container_id TEXT NOT NULL REFERENCES container (id) ON DELETE CASCADE,
  kind         TEXT NOT NULL,
  what         TEXT NOT NULL,
  at_ms        BIGINT NOT NULL,
  recorded_ms  BIGINT NOT NULL,
  done_by      TEXT,
  note         TEXT
);

CREATE INDEX alert_transition_alert ON alert_transition (alert_id);
CREATE INDEX alert_transition_container ON alert_transition (container_id, kind);

-- Where a condition stood when it was last saved; readings after last_ms are judged again.
CREATE TABLE alert_condition (
  container_id  TEXT NOT NULL REFERENCES container (id) ON DELETE CASCADE,
  kind          TEXT NOT NULL,
  since_ms      BIGINT,
  active        INTEGER NOT NULL,
  clear_ms      BIGINT,
  last_ms       BIGINT,
  worst_value   REAL,
  PRIMARY KEY (container_id, kind)
);

-- What somebody decided in place of a default; null where the default holds.
CREATE TABLE alert_rule (
  container_id  TEXT NOT NULL REFERENCES container (id) ON DELETE CASCADE,
  kind          TEXT NOT NULL,
  limit_value   REAL,
  deadband      REAL,
  on_delay_ms   BIGINT,
  off_delay_ms  BIGINT,
  priority      TEXT,
  out_ms        BIGINT,
  out_by        TEXT,
  out_reason    TEXT,
  PRIMARY KEY (container_id, kind)
);

-- What is known of the alerts so far.
UPDATE alert SET priority = 'high' WHERE kind IN ('cold', 'dry');

INSERT INTO alert_transition (alert_id, container_id, kind, what, at_ms, recorded_ms)
  SELECT id, container_id, kind, 'raised', raised_ms, raised_ms FROM alert ORDER BY id;
INSERT INTO alert_transition (alert_id, container_id, kind, what, at_ms, recorded_ms)
  SELECT id, container_id, kind, 'returned', returned_ms, returned_ms FROM alert
  WHERE returned_ms IS NOT NULL ORDER BY id;
INSERT INTO alert_transition (alert_id, container_id, kind, what, at_ms, recorded_ms, done_by)
  SELECT id, container_id, kind, 'acknowledged', acknowledged_ms, acknowledged_ms, acknowledged_by
  FROM alert WHERE acknowledged_ms IS NOT NULL ORDER BY id;

INSERT INTO alert_condition (container_id, kind, since_ms, active, last_ms, worst_value)
  SELECT container_id, kind, CASE WHEN returned_ms IS NULL THEN since_ms END,
    CASE WHEN returned_ms IS NULL THEN 1 ELSE 0 END, coalesce(returned_ms, raised_ms), worst_value
  FROM alert
  WHERE id IN (SELECT max(id) FROM alert GROUP BY container_id, kind);
