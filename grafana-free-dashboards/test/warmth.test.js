// The temperature along the way of the seeds, by days and by heat.

import assert from 'node:assert/strict';
import { afterEach, test } from 'node:test';
import { loadWarmth } from '../tally/warmth-load.js';
import { dayOfHeat, legsOf, meanWarmth, partsOf, strokes, warmthPoints } from '../tally/warmth.js';

const realFetch = globalThis.fetch;
afterEach(() => {
  globalThis.fetch = realFetch;
});

const HOUR = 3_600_000;
const SOWN = Date.parse('2026-03-02T00:00:00Z');
const hour = (hours) => SOWN + hours * HOUR;
const at = (hours) => new Date(hour(hours)).toISOString();
const rule = { base: 15, ceiling: 35 };

test('the way that most seeds came, until the last check', () => {
  const legs = [
    { container: 'box', from: at(0), until: at(10) },
    { container: 'mat', from: at(10), until: at(48) },
  ];
  const path = {
    ways: [
      { share: 0.2, legs: [] },
      { share: 0.8, legs },
    ],
  };
  assert.deepEqual(legsOf(path, hour(24)), [
    { container: 'box', from: hour(0), until: hour(10) },
    { container: 'mat', from: hour(10), until: hour(24) },
  ]);
  assert.deepEqual(legsOf(path, hour(5)), [{ container: 'box', from: hour(0), until: hour(5) }]);
});

const steady = (from, until, celsius) => {
  const times = Array.from({ length: until - from + 1 }, (_, i) => hour(from + i));
  return { from: hour(from), until: hour(until), columns: [times, times.map(() => celsius)] };
};

test('heat counts above the base and below the ceiling, from one container to the next', () => {
  const points = warmthPoints([steady(0, 24, 25), steady(24, 48, 45)], SOWN, rule);
  // 24 h at 10 K above the base, 24 h at the ceiling.
  assert.equal(points.at(-1).heat, 24 * 10 + 24 * 20);
  assert.equal(dayOfHeat(points, 120), 0.5);
  assert.equal(dayOfHeat(points, 240 + 240), 1.5);
  assert.equal(dayOfHeat(points, 10_000), null);
  assert.equal(meanWarmth(points), 35);
});

test('a gap breaks the line, but heat goes on at the usual rate', () => {
  const stay = steady(0, 24, 25);
  stay.columns[1] = stay.columns[1].map((value, i) => (i > 6 && i < 12 ? null : value));
  const points = warmthPoints([stay], SOWN, rule);
  assert.equal(Math.round(points.at(-1).heat), 240);
  assert.equal(strokes(points, 'days').length, 2);
  assert.deepEqual(strokes(points, 'heat')[0][1], [10, 25]);
});

test('a cold time receives no heat: over heat it is an upright line', () => {
  const points = warmthPoints([steady(0, 24, 10)], SOWN, rule);
  assert.equal(points.at(-1).heat, 0);
  assert.equal(dayOfHeat(points, 1), null);
  assert.ok(strokes(points, 'heat')[0].every(([x]) => x === 0));
});

test('the table has the mean of equal parts of the axis, none where there are no readings', () => {
  const points = warmthPoints([steady(0, 12, 25), { ...steady(12, 24, 31), columns: [[], []] }], SOWN, rule);
  assert.deepEqual(partsOf(points, 'days', 1, 4), [25, 25, 25, null]);
});

test('at most four lines are drawn, and the page says that there are more', async () => {
  globalThis.fetch = async (address) => {
    const id = address.split('/')[3];
    const legs = [{ container: `jar-${id}`, from: at(0), until: at(48) }];
    const readings = { temperature: { at: [at(1)], mean: [25], min: [25], max: [25] } };
    return new Response(JSON.stringify(address.endsWith('/path') ? { ...rule, ways: [{ share: 1, legs }] } : readings));
  };
  const germination = { sownAt: at(0), checks: [{ at: at(24) }] };
  const load = (count) => {
    const groups = Array.from({ length: count }, (_, i) => ({ id: `1-${i + 1}` }));
    return loadWarmth({ groups }, germination, (id) => id);
  };
  const six = await load(6);
  assert.equal(six.lines.length, 4);
  assert.match(six.leftOut, /first 4 of 6 different paths/);
  assert.equal((await load(4)).leftOut, '');
});
