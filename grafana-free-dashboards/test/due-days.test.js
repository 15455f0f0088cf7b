import assert from 'node:assert/strict';
import { test } from 'node:test';
import { dueDays, dueRooms, dueSpecies } from '../tally/due-days.js';

const NOW = new Date(2026, 2, 29, 10).getTime();
const at = (day, hour = 12) => ({ at: new Date(2026, 2, 29 + day, hour).toISOString() });
const sowings = [
  {
    species: 'lychee',
    speciesName: 'Lychee',
    groups: [
      { id: 1, nextCheck: at(1) },
      { id: 2, nextCheck: at(-3) },
      { id: 3, nextCheck: null },
    ],
  },
  {
    species: 'cacao',
    speciesName: 'Cacao',
    groups: [
      { id: 4, nextCheck: at(0, 8) },
      { id: 5, nextCheck: at(-1) },
      { id: 6, nextCheck: at(5) },
    ],
  },
  { species: 'fig', speciesName: 'Fig', groups: [] },
];
const days = (species) =>
  dueDays(sowings, NOW, { species }).map((day) => [day.title, day.items.map((one) => one.group.id)]);

test('checks stand by day, overdue first, none is left out', () => {
  assert.deepEqual(days('').slice(0, 3), [
    ['Overdue', [2, 5]],
    ['Today', [4]],
    ['Tomorrow', [1]],
  ]);
  assert.match(days('')[3][0], /3 Apr/);
});

test('one species alone', () => {
  assert.deepEqual(days('lychee'), [
    ['Overdue', [2]],
    ['Tomorrow', [1]],
  ]);
  assert.deepEqual(
    dueSpecies(sowings).map((one) => one.text),
    ['Cacao', 'Lychee'],
  );
});

test('one room alone', () => {
  const roomOf = (container) => ({ jar: 'Bench 2', box: 'Bench 10' })[container] ?? null;
  const group = (id, container, nextCheck = at(0)) => ({ id, container, nextCheck });
  const all = [{ species: 'fig', groups: [group(1, 'jar'), group(2, 'bag'), group(3, 'box'), group(4, 'tin', null)] }];
  assert.deepEqual(dueRooms(all, roomOf), ['Bench 2', 'Bench 10']);
  const found = dueDays(all, NOW, { roomOf, room: 'Bench 10' });
  assert.deepEqual(
    found.flatMap((day) => day.items.map((one) => one.group.id)),
    [3],
  );
});
