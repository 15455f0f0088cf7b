import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as c from '../tally/course.js';
import { ticksOf } from '../tally/plot.js';

const heat = (likely, least = likely, most = likely) => ({ likely, least, most });
const close = (a, b, within = 1e-9) => assert.ok(Math.abs(a - b) <= within, `${a} is not ${b}`);

test('the curve: between the two lines it is not known when', () => {
  const { least, most } = c.curveLines(
    [
      { from: 0, to: 7, fraction: 0.1 },
      { from: 7, to: 14, fraction: 0.2 },
      { from: 14, to: null, fraction: 0.7 },
    ],
    21,
  );
  const same = (got, wanted) =>
    got.forEach(([x, y], i) => assert.ok(x === wanted[i][0] && Math.abs(y - wanted[i][1]) < 1e-12, `${x} ${y}`));
  same(least, [
    [0, 0],
    [7, 0],
    [7, 0.1],
    [14, 0.1],
    [14, 0.3],
    [21, 0.3],
  ]);
  same(most, [
    [0, 0],
    [0, 0],
    [0, 0.1],
    [7, 0.1],
    [7, 0.3],
    [21, 0.3],
  ]);
});

const course = {
  rows: [
    { group: '1-1', fate: 'germinated', count: 2, from: heat(0), to: heat(2000, 1900, 2300) },
    { group: '1-1', fate: 'germinated', count: 1, from: heat(2000, 1900, 2300), to: heat(4000, 3900, 4400) },
    { group: '1-1', fate: 'remaining', count: 7, from: heat(5000, 4900, 5400), to: null },
  ],
  curve: [
    { from: 0, to: 2000, fraction: 0.2 },
    { from: 2000, to: 4000, fraction: 0.1 },
    { from: 5000, to: null, fraction: 0.7 },
  ],
};

test('each check has one whisker, at the height found by then; sure heat has none', () => {
  const whiskers = c.heatWhiskers(course);
  assert.deepEqual(
    whiskers.map(({ low, high }) => [low, high]),
    [
      [1900, 2300],
      [3900, 4400],
      [4900, 5400],
    ],
  );
  [0.2, 0.3, 0.3].forEach((at, i) => close(whiskers[i].at, at));
  assert.equal(c.watchedHeat(course), 5000);
  assert.equal(c.heatEnd(course), 5400);
  assert.equal(c.heatEnd({ ...course, rows: [{ from: heat(0), to: heat(1000, 900, 4000) }] }), 1250);
});

test('seeds whose time is not covered by readings draw no whisker and no axis', () => {
  const rows = [
    ...course.rows,
    { group: '1-2', fate: 'remaining', count: 3, from: heat(100, 0, 90_000), to: null, measured: false },
  ];
  assert.equal(c.heatWhiskers({ ...course, rows }).length, 3);
  assert.equal(c.heatEnd({ ...course, rows }), 5400);
});

test('the normal distribution: 0.975 at 1.959964, 0.158655 at −1 (Abramowitz and Stegun, table 26.1)', () => {
  close(c.normal(1.959964), 0.975, 1e-6);
  close(c.normal(-1), 0.1586553, 1e-6);
  close(c.normal(0), 0.5, 1e-6);
});

test('the fitted line passes half of the final fraction at the median and never exceeds it', () => {
  const line = c.fittedLine({ medianHeat: 3000, sigma: 0.3, finalFraction: 0.6 }, 6000, 2);
  assert.deepEqual(line[0], [0, 0]);
  close(line[1][1], 0.3, 1e-6);
  assert.ok(line[2][1] > 0.5 && line[2][1] < 0.6);
});

test('a likelihood is told as how far it is below the highest; impossible bases break the line', () => {
  const profile = [
    { base: 12, logLikelihood: -41 },
    { base: 10, logLikelihood: -40 },
    { base: 14, logLikelihood: null },
    { base: 16, logLikelihood: -52 },
  ];
  const { lines, lowest } = c.profileLines(profile);
  assert.deepEqual(lines, [
    [
      [10, 0],
      [12, -1],
    ],
    [[16, -12]],
  ]);
  assert.equal(lowest, -8);
  assert.ok(c.profileLines(profile.slice(0, 2)).lowest < -c.DROP_95, 'the line of 95 % is always in sight');
  assert.equal(c.profileLines([{ base: 10, logLikelihood: null }]), null);
});

test('ticks are round and lie within', () => {
  assert.deepEqual(ticksOf(0, 5000, 5), [0, 2000, 4000]);
  assert.deepEqual(ticksOf(0, 21, 5), [0, 5, 10, 15, 20]);
  assert.deepEqual(ticksOf(0, 9700, 5), [0, 2000, 4000, 6000, 8000]);
  assert.deepEqual(ticksOf(5, 20, 6), [5, 10, 15, 20]);
  assert.deepEqual(ticksOf(0, 1, 5), [0, 0.5, 1]);
  assert.deepEqual(ticksOf(3, 3), [3]);
});
