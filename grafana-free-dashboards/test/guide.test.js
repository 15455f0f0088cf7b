import assert from 'node:assert/strict';
import { test } from 'node:test';
import { setTemperatureUnit } from '../shared/format.js';
import { remembered } from '../sensors/guide-memory.js';
import { PROCEDURES, procedureOf } from '../sensors/guide-procedures.js';
import { canTake, missingTime, pointOf, settleWords } from '../sensors/guide-words.js';

const MINUTE = 60_000;
const settling = (more) => ({
  quantity: 'temperature',
  state: 'settled',
  readings: 20,
  readingsNeeded: 6,
  seconds: 600,
  at: '2026-03-01T06:00:00Z',
  mean: 0.312,
  drift: -0.04,
  spread: 0.05,
  driftLimit: 0.2,
  ...more,
});

test('each procedure has a next one for the same quantity', () => {
  for (const one of PROCEDURES) {
    assert.equal(procedureOf(one.next).quantity, one.quantity);
    assert.notEqual(one.next, one.key);
  }
});

test('what is missing until the reading has settled is told', () => {
  assert.equal(
    settleWords(procedureOf('icePoint'), settling({ state: 'waiting', readings: 2 })),
    '2 of 6 readings needed.',
  );
  assert.match(
    settleWords(procedureOf('icePoint'), settling({ state: 'drifting', drift: -3.1 })),
    /^Falling by 3.10 °C in 10 min; .* 0.20 °C/,
  );
  assert.match(settleWords(procedureOf('icePoint'), settling({ state: 'unsteady', spread: 2 })), /off by 2.00 °C/);
  assert.match(settleWords(procedureOf('icePoint'), settling()), /^Settled at 0.31 °C for 10 min/);
  setTemperatureUnit('F');
  assert.match(settleWords(procedureOf('icePoint'), settling()), /32.56 °F/);
  assert.match(settleWords(procedureOf('icePoint'), settling({ state: 'drifting', drift: -1 })), /Falling by 1.80 °F/);
  setTemperatureUnit('C');
});

test('the value is taken once it has settled and the time is over', () => {
  const ice = procedureOf('icePoint');
  const placed = 1_000_000;
  assert.equal(missingTime(ice, placed, placed + 4 * MINUTE), 6 * MINUTE);
  assert.equal(canTake(ice, placed, settling(), placed + 9 * MINUTE), false);
  assert.equal(canTake(ice, placed, settling(), placed + 10 * MINUTE), true);
  assert.equal(canTake(ice, placed, settling({ state: 'drifting' }), placed + 60 * MINUTE), false);
  assert.equal(canTake(ice, placed, null, placed + 60 * MINUTE), false);
});

test('a steady reading far from the expected value is not taken', () => {
  const ice = procedureOf('icePoint');
  const warm = settling({ mean: 30.7 });
  assert.match(settleWords(ice, warm), /near 0.00 °C. Is the sensor in place/);
  assert.equal(canTake(ice, 0, warm, 60 * MINUTE), false);
  assert.equal(canTake(procedureOf('warm'), 0, warm, 60 * MINUTE), true);
});

test('a point takes the mean, and what was typed in the unit of the reader', () => {
  const ice = pointOf(procedureOf('icePoint'), settling(), {});
  assert.deepEqual(ice.body, {
    quantity: 'temperature',
    method: 'icePoint',
    at: '2026-03-01T06:00:00Z',
    reading: 0.312,
  });
  setTemperatureUnit('F');
  const warm = pointOf(procedureOf('warm'), settling({ mean: 30.4 }), { trueValue: '86', uncertainty: '0,18' });
  assert.equal(warm.body.trueValue, 30);
  assert.equal(warm.body.uncertainty, 0.1);
  assert.equal(warm.body.method, 'comparison');
  setTemperatureUnit('C');
  const bad = pointOf(procedureOf('salt75'), settling({ quantity: 'humidity', mean: 77 }), { saltTemperature: '' });
  assert.deepEqual(bad.problems, ['Temperature of the jar: enter a number.']);
});

test('a calibration that was begun is remembered for two days', () => {
  const text = JSON.stringify({ procedure: 'icePoint', begunAt: 1_000, placedAt: 2_000 });
  assert.equal(remembered(text, 3_000).placedAt, 2_000);
  assert.equal(remembered(text, 1_000 + 2 * 86_400_000), null);
  assert.equal(remembered(text, 500), null, 'the clock was set back');
  assert.equal(remembered('{', 3_000), null);
  assert.equal(remembered('{"procedure":"bath","begunAt":1}', 3_000), null);
  assert.equal(remembered(null, 3_000), null);
});
