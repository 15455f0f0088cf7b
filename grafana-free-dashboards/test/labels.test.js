import assert from 'node:assert/strict';
import { test } from 'node:test';
import { firstPlace, loopbackWords, sheetsOf, sowingLines } from '../labels/sheets.js';
import { groupsIn } from '../tally/scanned.js';

const labels = (count) => [...Array(count).keys()];

test('24 labels fill a sheet; a used sheet starts at its first free label', () => {
  assert.deepEqual(sheetsOf([], 5), []);
  assert.deepEqual(sheetsOf(labels(24), 1), [labels(24)]);
  assert.deepEqual(
    sheetsOf(labels(25), 1).map((sheet) => sheet.length),
    [24, 1],
  );
  assert.deepEqual(sheetsOf(['a', 'b'], 24), [[...Array(23).fill(null), 'a'], ['b']]);
});

test('a place that is none is taken as the nearest', () => {
  assert.deepEqual(['', '0', '7', '24', '99', 'x', '3.9'].map(firstPlace), [1, 1, 7, 24, 24, 1, 3]);
});

test('the lines of a label: two sowings, or one and how many more', () => {
  const sowing = (lot, seeds = 20) => ({ speciesName: 'Pawpaw', seeds, lot, sownAt: '2026-11-20T23:30:00Z' });
  assert.deepEqual(sowingLines([], 'UTC'), []);
  assert.deepEqual(sowingLines([sowing(1, 1), sowing(2)], 'UTC'), [
    ['Pawpaw, 1 seed, lot 1', 'Sown 20 Nov 2026'],
    ['Pawpaw, 20 seeds, lot 2', 'Sown 20 Nov 2026'],
  ]);
  assert.deepEqual(sowingLines([sowing(1), sowing(2), sowing(3)], 'Europe/Berlin'), [
    ['Pawpaw, 20 seeds, lot 1', 'Sown 21 Nov 2026'],
    ['and 2 more sowings'],
  ]);
});

test('the warning names the host', () => {
  assert.match(loopbackWords('http://127.0.0.1:8080'), /^A phone cannot open 127\.0\.0\.1\. Set notices\.publicUrl/);
});

test('a scanned label finds the groups with living seeds in its container', () => {
  const group = (id, container, ungerminated, germinated) => ({ id, container, ungerminated, germinated });
  const sowings = [
    { id: 1, groups: [group('1-1', 'jar', 0, 0), group('1-2', 'jar', 0, 1), group('1-3', 'box', 5, 0)] },
    { id: 2, groups: [group('2-1', 'jar', 3, 0)] },
  ];
  assert.deepEqual(
    groupsIn(sowings, 'jar').map((one) => one.group.id),
    ['1-2', '2-1'],
  );
  assert.deepEqual(groupsIn(sowings, 'bag'), []);
});
