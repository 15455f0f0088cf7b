import assert from 'node:assert/strict';
import { test } from 'node:test';
import { columnsOf, heatColumns, join, lonePoints, within } from '../shared/series.js';
import { shiftRange } from '../shared/time-range.js';

const at = (minute) => new Date(Date.UTC(2026, 2, 1, 0, minute)).toISOString();
const ms = (minute) => Date.UTC(2026, 2, 1, 0, minute);

test('columns keep gaps as null and convert values', () => {
  const columns = columnsOf(
    { at: [at(0), at(1), at(2)], mean: [30, null, 31], min: [29, null, 30], max: [31, null, 32] },
    (value) => value * 2,
  );
  assert.deepEqual(columns, [
    [ms(0), ms(1), ms(2)],
    [60, null, 62],
    [58, null, 60],
    [62, null, 64],
  ]);
});

test('columns are strictly ascending, whatever comes', () => {
  const columns = columnsOf({
    at: [at(1), at(1), at(0), at(2)],
    mean: [1, 2, 3, 4],
    min: [1, 2, 3, 4],
    max: [1, 2, 3, 4],
  });
  assert.deepEqual(columns[0], [ms(1), ms(2)]);
  assert.deepEqual(columns[1], [1, 4]);
});

test('a quantity that is not there gives empty columns', () => {
  assert.deepEqual(columnsOf(undefined), [[], [], [], []]);
});

test('joining tells "no sample here" from a gap', () => {
  const joined = join(
    [
      [0, 2, 4],
      [1, 2, 3],
    ],
    [
      [1, 2],
      [8, 9],
    ],
  );
  assert.deepEqual(joined, [
    [0, 1, 2, 4],
    [1, undefined, 2, 3],
    [undefined, 8, 9, undefined],
  ]);
});

test('samples of another sensor that fall into a gap do not bridge it', () => {
  const joined = join(
    [
      [0, 10, 20],
      [30, null, 31],
    ],
    [
      [0, 5, 15, 20],
      [19, 19, 20, 20],
    ],
  );
  assert.deepEqual(joined[0], [0, 5, 10, 15, 20]);
  assert.deepEqual(joined[1], [30, null, null, null, 31]);
});

test('a sample alone between gaps is found', () => {
  assert.deepEqual(lonePoints([null, 1, null, 2, 3, null, 4]), [1, 6]);
  assert.deepEqual(lonePoints([1, undefined, 2]), []);
  assert.deepEqual(lonePoints([]), []);
});

const day = (name, degreeHours, upper = degreeHours) => ({ day: name, degreeHours, lower: degreeHours, upper });

test('heat is summed to the end of each day of the service, the last one ending now', () => {
  const range = { from: Date.parse('2026-03-28T12:00:00Z'), to: Date.parse('2026-03-30T06:00:00Z') };
  const [times, sum, lower, upper] = heatColumns(
    [day('2026-03-28', 100), day('2026-03-29', 50, 80), day('2026-03-30', 10)],
    'Europe/Berlin',
    range,
  );
  assert.deepEqual(
    times.map((time) => new Date(time).toISOString()),
    ['2026-03-28T12:00:00.000Z', '2026-03-28T23:00:00.000Z', '2026-03-29T22:00:00.000Z', '2026-03-30T06:00:00.000Z'],
  );
  assert.deepEqual(sum, [0, 100, 150, 160]);
  assert.deepEqual(lower, sum);
  assert.deepEqual(upper, [0, 100, 180, 190]);
});

test('no days, no line', () => {
  assert.deepEqual(heatColumns([], 'UTC', { from: 0, to: 1 }), [[], [], [], []]);
});

test('straight lines are cut at the edges of the stretch', () => {
  const columns = [
    [0, 10, 20],
    [0, 100, 300],
  ];
  assert.deepEqual(within(columns, 5, 15), [
    [5, 10, 15],
    [50, 100, 200],
  ]);
  assert.deepEqual(within(columns, 12, 14), [
    [12, 14],
    [140, 180],
  ]);
  assert.deepEqual(within(columns, 0, 20), columns);
  assert.deepEqual(within(columns, 30, 40), [[], []]);
});

test('ranges move and change size, never past now, never below ten minutes', () => {
  const hour = 3600_000;
  assert.deepEqual(shiftRange({ from: 0, to: 4 * hour }, 'closer', 9 * hour), { from: hour, to: 3 * hour });
  assert.deepEqual(shiftRange({ from: 0, to: 4 * hour }, 'earlier', 9 * hour), { from: -2 * hour, to: 2 * hour });
  assert.deepEqual(shiftRange({ from: 0, to: 4 * hour }, 'later', 4 * hour), { from: 0, to: 4 * hour });
  const small = shiftRange({ from: 0, to: 60_000 }, 'closer', hour);
  assert.equal(small.to - small.from, hour / 6);
});
