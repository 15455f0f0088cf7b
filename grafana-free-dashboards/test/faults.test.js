import assert from 'node:assert/strict';
import { test } from 'node:test';
import {
  chartWords,
  leftOutWords,
  marksOfFaults,
  nextDecisions,
  recentWords,
  stateWords,
  summaryWords,
  whenWords,
} from '../shared/fault-words.js';
import { reasonWords } from '../shared/fault-reasons.js';
import { setTemperatureUnit } from '../shared/format.js';

const fault = (more = {}) => ({
  sensor: 'probe',
  quantity: 'temperature',
  kind: 'power-on',
  from: '2026-03-01T06:00:00Z',
  to: '2026-03-01T06:00:00Z',
  ongoing: false,
  state: 'excluded',
  refused: false,
  ...more,
});

test('the verdict says how many faults the figures leave out', () => {
  const counted = fault({ state: 'counted' });
  assert.equal(summaryWords([]), 'No sensor faults in this stretch.');
  assert.equal(summaryWords([counted]), '1 fault, all counted in the figures.');
  assert.equal(summaryWords([fault()]), '1 fault; it is left out of the figures.');
  assert.equal(summaryWords([fault(), fault()]), '2 faults; all are left out of the figures.');
  assert.equal(summaryWords([fault(), counted]), '2 faults; 1 left out of the figures.');
});

test('a press does the opposite of what holds, and nothing to a refused value', () => {
  assert.deepEqual(nextDecisions(fault()), [{ sensor: 'probe', excluded: false, title: 'Include' }]);
  assert.equal(nextDecisions(fault({ state: 'partly-excluded' }))[0].title, 'Exclude');
  assert.equal(nextDecisions(fault({ state: 'counted' }))[0].title, 'Exclude');
  assert.deepEqual(nextDecisions(fault({ refused: true })), []);
  assert.match(stateWords(fault({ refused: true })), /refused/);
});

test('either sensor of a pair that drifts apart can be excluded', () => {
  const drift = fault({ kind: 'drift', state: 'counted', otherSensor: 'second', otherState: 'excluded' });
  assert.deepEqual(nextDecisions(drift), [
    { sensor: 'probe', excluded: true, title: 'Exclude probe' },
    { sensor: 'second', excluded: false, title: 'Include second' },
  ]);
  assert.equal(stateWords(drift), 'probe counted, second left out of figures');
  assert.equal(stateWords({ ...drift, otherState: 'counted' }), 'counted');
  assert.equal(summaryWords([drift]), '1 fault; it is left out of the figures.');
  assert.equal(marksOfFaults([drift])[0].kind, 'excluded');
});

test('a fault without faulty readings cannot be excluded, but included again', () => {
  for (const kind of ['lengthening-interval', 'falling-battery']) {
    assert.deepEqual(nextDecisions(fault({ kind, state: 'counted' })), []);
    assert.equal(nextDecisions(fault({ kind }))[0].title, 'Include');
  }
});

test('a reason shows temperatures in the unit that the reader chose', () => {
  const stuck = fault({ kind: 'stuck', low: -5, high: 30.04, to: '2026-03-01T13:00:00Z' });
  const drift = fault({ kind: 'drift', low: -2.25, high: 1, otherSensor: 'second' });
  assert.match(reasonWords(stuck), /^−5 °C to 30\.04 °C without any change for 7 h, although/);
  setTemperatureUnit('F');
  try {
    assert.match(reasonWords(stuck), /^23 °F to 86\.07 °F without any change for 7 h/);
    assert.match(reasonWords(drift), /^Differs from second in the same container by −4\.05 °F/);
    assert.match(reasonWords(fault({ kind: 'not-connected' })), /^−196\.6 °F: the sensor chip did not answer/);
  } finally {
    setTemperatureUnit('C');
  }
});

test('reasons have the figures of their kind', () => {
  const said = (more) => reasonWords(fault({ kind: 'wrong-clock', quantity: null, ...more }));
  assert.match(said({ low: 12, high: 30 }), /behind by at least 12 min\./);
  assert.match(said({ low: -300, high: -200 }), /ahead by at least 3 h\./);
  assert.match(said({ kind: 'lengthening-interval', low: 60, high: 600 }), /every 10 min instead of every 60 s/);
  assert.match(said({ kind: 'falling-battery', low: 3.1, high: 3.9 }), /from 3\.90 V to 3\.10 V/);
  assert.match(said({ kind: 'spike', quantity: 'co2', low: 9000, high: 9000 }), /^9,?000 ppm, far/);
});

test('a figure says what it left out', () => {
  const one = { quantity: 'temperature', hours: 1 / 3, stretches: 2, kinds: ['power-on', 'stuck'] };
  assert.equal(leftOutWords([]), '');
  assert.equal(
    leftOutWords([one, { quantity: 'humidity', hours: 0, stretches: 1, kinds: ['raw-limit'] }]),
    'Left out because of faults: 20 min of temperature (2 faulty stretches: power-on value, stuck value); humidity (1 faulty stretch: error code).',
  );
});

test('faults are marked in words too, apart by what figures do with them', () => {
  const marks = marksOfFaults([fault(), fault({ kind: 'stuck', state: 'counted' }), fault()]);
  assert.deepEqual(
    marks.map((mark) => mark.kind),
    ['excluded', 'fault', 'excluded'],
  );
  assert.equal(chartWords(marks), 'Faults: Power-on value (left out of figures); Stuck value (counted).');
  assert.equal(chartWords([{ kind: 'cold' }]), '');
});

test('the list of sensors tells the newest fault', () => {
  assert.equal(recentWords(null), '');
  assert.equal(recentWords({ count: 0, newestKind: null }), '');
  assert.equal(recentWords({ count: 2, newestKind: 'stuck' }), '2 faults in 7 days, newest: stuck value');
});

test('an ongoing fault has no end', () => {
  const now = Date.parse('2026-03-01T08:00:00Z');
  const long = fault({ to: '2026-03-01T07:30:00Z' });
  assert.match(whenWords(long, now), / to /);
  assert.match(whenWords({ ...long, ongoing: true }, now), /^since /);
  assert.doesNotMatch(whenWords(fault(), now), / to /);
});
