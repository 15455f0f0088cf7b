import assert from 'node:assert/strict';
import { test } from 'node:test';
import { presetSpan } from '../chart-parts/range.js';

const MINUTE = 60_000;
const DAY = 1440 * MINUTE;

test('a container of eleven minutes does not miss the 23 h 49 min before', () => {
  const to = 10 * DAY;
  assert.deepEqual(presetSpan(DAY, to - 11 * MINUTE, to), { from: to - 11 * MINUTE, to });
  assert.deepEqual(presetSpan(DAY, to - MINUTE, to), { from: to - 10 * MINUTE, to });
  assert.deepEqual(presetSpan(DAY, to - 3 * DAY, to), { from: to - DAY, to });
  assert.deepEqual(presetSpan(null, to - 3 * DAY, to), { from: to - 3 * DAY, to });
});
