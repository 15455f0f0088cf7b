import assert from 'node:assert/strict';
import { test } from 'node:test';
import { correctionWords, meanWords, methodsOf, readPoint } from '../sensors/calibration-words.js';
import { insideWords } from '../container/limits-table.js';

const now = { gain: 1, offset: -0.3, reading: 30.3, corrected: 30, uncertainty: 0.065, expandedUncertainty: 0.13 };

test('a correction is told with what it does now and how sure it is', () => {
  assert.equal(
    correctionWords({ quantity: 'temperature', sessions: [{}], now }),
    'Temperature: reading \u2212 0.30 °C. Now 30.30 °C becomes 30.00 °C ± 0.13 °C (95 %).',
  );
  assert.equal(
    correctionWords({ quantity: 'humidity', sessions: [{}, {}], now: { ...now, gain: 1.0213, offset: 1.5 } }),
    'Humidity: 1.0213 × reading + 1.5 %. Now 30.3 % becomes 30.0 % ± 0.1 % (95 %). From 2 sessions.',
  );
});

test('the mean of the last day is told before and after', () => {
  assert.equal(
    meanWords({ quantity: 'temperature', meanBefore: 30.3, meanAfter: 30 }),
    'Mean of the last day: 30.30 °C before, 30.00 °C after.',
  );
  assert.equal(
    meanWords({ quantity: 'temperature', meanBefore: null, meanAfter: null }),
    'No readings in the last day.',
  );
});

test('a method is offered only for its quantity', () => {
  const keys = (quantity) => methodsOf(quantity).map(({ key }) => key);
  assert.deepEqual(keys('temperature'), ['comparison', 'icePoint', 'other']);
  assert.deepEqual(keys('light'), ['comparison', 'dark', 'knownLamp', 'other']);
  assert.deepEqual(keys('co2'), ['comparison', 'other']);
});

test('a typed point is read, and what is missing is named', () => {
  const ice = {
    quantity: 'temperature',
    method: 'icePoint',
    reading: '0,4',
    trueValue: '',
    uncertainty: '',
    note: ' ',
  };
  assert.deepEqual(readPoint(ice), {
    body: { quantity: 'temperature', method: 'icePoint', reading: 0.4 },
    problems: [],
  });
  const compared = { ...ice, method: 'comparison', trueValue: 'x' };
  assert.deepEqual(readPoint(compared).problems, ['True value: enter a number.', 'Uncertainty: enter a number.']);
  const salt = {
    quantity: 'humidity',
    method: 'saturatedSalt',
    reading: '77',
    salt: 'sodiumChloride',
    saltTemperature: '25',
  };
  assert.deepEqual(readPoint(salt).body, {
    quantity: 'humidity',
    method: 'saturatedSalt',
    reading: 77,
    salt: 'sodiumChloride',
    saltTemperature: 25,
  });
});

test('time in band says what the sensor leaves open', () => {
  assert.match(
    insideWords({ fractionInside: 0.9, sensorLower: 0.5, sensorUpper: 1 }),
    /^90.0 % \(sensor: 50.0 % to 100 %\)$/,
  );
  assert.equal(insideWords({ fractionInside: 0.9, sensorLower: 0.9, sensorUpper: 0.9 }), '90.0 %');
  assert.equal(insideWords({ fractionInside: 0.9, sensorLower: null, sensorUpper: null }), '90.0 %');
});
