import assert from 'node:assert/strict';
import { afterEach, test } from 'node:test';
import { setTemperatureUnit } from '../shared/format.js';
import { extremesSummary, readExtremes } from '../container/extremes-words.js';

afterEach(() => setTemperatureUnit('C'));

const day = (more) => ({
  day: '2026-03-01',
  min: 20,
  max: 30,
  estimate: 240,
  measured: null,
  difference: null,
  ...more,
});

test('estimates are said to be apart from measured heat', () => {
  const answer = { days: [day()], unmeasured: 240, unmeasuredDays: 1, bothDays: 0, meanDifference: null };
  assert.equal(
    extremesSummary(answer),
    'About 240 °C·h in 1 day without readings: an estimate, not part of “Heat so far”.',
  );
});

test('where both are known the difference is told', () => {
  const answer = { days: [day(), day()], unmeasured: 0, unmeasuredDays: 0, bothDays: 2, meanDifference: -6.5 };
  assert.equal(
    extremesSummary(answer),
    'Every day entered was measured too. On 2 days with both, the estimate is 6.5 °C·h a day too low on average.',
  );
  assert.match(extremesSummary({ ...answer, meanDifference: 0 }), /equals the measured heat/);
});

test('what was typed is read in the unit shown', () => {
  assert.deepEqual(readExtremes({ day: '2026-03-01', min: '\u22123,5', max: '12' }), {
    day: '2026-03-01',
    body: { min: -3.5, max: 12 },
    problems: [],
  });
  setTemperatureUnit('F');
  assert.deepEqual(readExtremes({ day: '2026-03-01', min: '50', max: '86' }).body, { min: 10, max: 30 });
});

test('what is missing or contradicts itself is named', () => {
  assert.deepEqual(readExtremes({ day: '', min: '1', max: '2' }).problems, ['Day: choose a date.']);
  assert.equal(readExtremes({ day: '2026-03-01', min: 'x', max: '' }).problems.length, 2);
  assert.match(readExtremes({ day: '2026-03-01', min: '3', max: '2' }).problems[0], /above the highest/);
});
