-- What was done is stored as one JSON object, in place of columns most of which were null. The column
-- lot_id stays because it refers to another table; the JSON object repeats its value.
ALTER TABLE seed_entry ADD COLUMN act TEXT NOT NULL DEFAULT '{}';

UPDATE seed_entry SET act = json_object('kind', kind, 'lot', lot_id, 'name', name, 'parts', (
    SELECT json_group_array(json_object(
      'group', substr(value, 1, instr(value, ' in ') - 1),
      'container', substr(value, instr(value, ' in ') + 4, instr(value, ': ') - instr(value, ' in ') - 4),
      'seeds', CAST(substr(value, instr(value, ': ') + 2) AS INTEGER)))
    FROM json_each('["' || replace(groups_text, '; ', '","') || '"]')))
  WHERE kind = 'sown';

UPDATE seed_entry SET act = json_object('kind', kind, 'group', seed_group, 'to', container_id,
    'ungerminated', ungerminated, 'germinated', germinated, 'splitInto', split_into, 'joinTo', join_to)
  WHERE kind = 'moved';

UPDATE seed_entry SET act = json_object('kind', kind, 'group', seed_group,
    'germinated', coalesce(germinated, 0),
    'culled', (
      SELECT json_group_array(json_object(
        'count', CAST(substr(value, 1, instr(value, ' ') - 1) AS INTEGER),
        'reason', replace(substr(value, instr(value, ' ') + 1), ' germinated', ''),
        'germinated', json(CASE WHEN value LIKE '% germinated' THEN 'true' ELSE 'false' END)))
      FROM json_each('["' || replace(coalesce(culled, ''), '; ', '","') || '"]') WHERE value <> ''),
    'pottedOn', coalesce(potted_on, 0),
    'rootLengthsCm', json('[' || replace(coalesce(root_lengths_cm, ''), ';', ',') || ']'))
  WHERE kind = 'checked';

UPDATE seed_entry SET act = json_object('kind', kind, 'group', seed_group, 'alive', alive)
  WHERE kind = 'survival';

UPDATE seed_entry SET act = json_object('kind', kind) WHERE kind = 'withdrawn';

ALTER TABLE seed_entry DROP COLUMN kind;
ALTER TABLE seed_entry DROP COLUMN seed_group;
ALTER TABLE seed_entry DROP COLUMN name;
ALTER TABLE seed_entry DROP COLUMN groups_text;
ALTER TABLE seed_entry DROP COLUMN container_id;
ALTER TABLE seed_entry DROP COLUMN ungerminated;
ALTER TABLE seed_entry DROP COLUMN germinated;
ALTER TABLE seed_entry DROP COLUMN split_into;
ALTER TABLE seed_entry DROP COLUMN join_to;
ALTER TABLE seed_entry DROP COLUMN culled;
ALTER TABLE seed_entry DROP COLUMN potted_on;
ALTER TABLE seed_entry DROP COLUMN root_lengths_cm;
ALTER TABLE seed_entry DROP COLUMN alive;
