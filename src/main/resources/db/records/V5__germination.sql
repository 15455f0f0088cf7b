-- The germination record. Instants are epoch milliseconds (_ms).
CREATE TABLE species (
  id   TEXT NOT NULL PRIMARY KEY,
  name TEXT NOT NULL
);

CREATE TABLE species_figure (
  species_id TEXT NOT NULL REFERENCES species (id) ON DELETE CASCADE,
  trait      TEXT NOT NULL,
  figure     REAL NOT NULL,
  source     TEXT NOT NULL,
  PRIMARY KEY (species_id, trait)
);

CREATE TABLE seed_lot (
  id          INTEGER PRIMARY KEY,
  species_id  TEXT NOT NULL REFERENCES species (id),
  name        TEXT,
  seeds       INTEGER NOT NULL,
  gathered_ms BIGINT NOT NULL,
  origin      TEXT NOT NULL,
  place       TEXT,
  kept        TEXT,
  remark      TEXT
);

-- Only ever added to; a line that was wrong is named by the line that corrects it.
CREATE TABLE seed_entry (
  number          INTEGER PRIMARY KEY AUTOINCREMENT,
  id              TEXT NOT NULL UNIQUE,
  sowing          BIGINT NOT NULL,
  at_ms           BIGINT NOT NULL,
  recorded_ms     BIGINT NOT NULL,
  kind            TEXT NOT NULL,
  seed_group      TEXT,
  lot_id          INTEGER REFERENCES seed_lot (id),
  name            TEXT,
  groups_text     TEXT,
  container_id    TEXT,
  ungerminated    INTEGER,
  germinated      INTEGER,
  split_into      TEXT,
  join_to         TEXT,
  culled          TEXT,
  potted_on       INTEGER,
  root_lengths_cm TEXT,
  alive           INTEGER,
  recorded_by     TEXT,
  remark          TEXT,
  corrects        TEXT UNIQUE REFERENCES seed_entry (id),
  reason          TEXT,
  request         TEXT
);

CREATE TABLE seed_photo (
  entry_id TEXT NOT NULL PRIMARY KEY REFERENCES seed_entry (id),
  picture  BLOB NOT NULL
);

-- To begin with; each figure is common practice without a source until the grower knows better.
INSERT INTO species (id, name) VALUES
  ('cacao', 'Cacao'), ('lychee', 'Lychee'), ('fresh-tropical-seed', 'Fresh tropical seed');

INSERT INTO species_figure (species_id, trait, figure, source) VALUES
  ('cacao', 'base', 15, 'common practice, no source'),
  ('cacao', 'optimum', 30, 'common practice, no source'),
  ('cacao', 'ceiling', 36, 'common practice, no source'),
  ('cacao', 'firstDays', 5, 'common practice, no source'),
  ('cacao', 'giveUpDays', 42, 'common practice, no source'),
  ('cacao', 'fraction', 0.8, 'common practice, no source'),
  ('cacao', 'rootCm', 3, 'common practice, no source'),
  ('cacao', 'keepsDays', 7, 'common practice, no source'),
  ('lychee', 'base', 15, 'common practice, no source'),
  ('lychee', 'optimum', 30, 'common practice, no source'),
  ('lychee', 'ceiling', 36, 'common practice, no source'),
  ('lychee', 'firstDays', 8, 'common practice, no source'),
  ('lychee', 'giveUpDays', 42, 'common practice, no source'),
  ('lychee', 'fraction', 0.7, 'common practice, no source'),
  ('lychee', 'rootCm', 3, 'common practice, no source'),
  ('lychee', 'keepsDays', 5, 'common practice, no source'),
  ('fresh-tropical-seed', 'base', 15, 'common practice, no source'),
  ('fresh-tropical-seed', 'optimum', 30, 'common practice, no source'),
  ('fresh-tropical-seed', 'firstDays', 10, 'common practice, no source'),
  ('fresh-tropical-seed', 'giveUpDays', 42, 'common practice, no source'),
  ('fresh-tropical-seed', 'fraction', 0.18, 'common practice, no source'),
  ('fresh-tropical-seed', 'rootCm', 3, 'common practice, no source'),
  ('fresh-tropical-seed', 'keepsDays', 14, 'common practice, no source');
