import assert from 'node:assert/strict';
import { test } from 'node:test';
import { readRules } from '../container/rule-fields.js';
import { deliveryWords, failedFirst, notifierWords, tellingWords, testWords } from '../alerts/notice-words.js';
import {
  groupMarks,
  hintWords,
  newestFirst,
  rateWords,
  readMinutes,
  transitionTime,
  transitionWords,
  troubleWords,
} from '../alerts/words.js';
import { historyChoices, narrowed } from '../alerts/history.js';
import { setTemperatureUnit } from '../shared/format.js';
import { isLoud } from '../shared/tell-here.js';

const NOW = Date.parse('2026-03-01T12:00:00Z');
const at = (minutes) => new Date(NOW - minutes * 60_000).toISOString();

test('a transition says what, who and why; the service itself has no name', () => {
  assert.equal(
    transitionWords({ what: 'shelved', by: 'Ada', note: 'mat is changed' }),
    'Paused by Ada: mat is changed',
  );
  assert.equal(transitionWords({ what: 'returned', by: null, note: null }), 'Back to normal');
  assert.match(transitionWords({ what: 'foundLate', by: null, note: null }), /nobody was told/);
  const reasons = [{ code: 'before', figures: { since: at(90), until: at(60), worst: 24.1, unit: '°C' } }];
  assert.match(
    transitionWords({ what: 'raised', by: null, note: 'in English', reasons }, 'cold', NOW),
    /: the time before from .* to .*, coldest 24\.1 °C$/,
  );
});

test('a transition noted much later than it happened says both times', () => {
  assert.match(transitionTime({ at: at(90), recordedAt: at(5) }, NOW), /noted/);
  assert.doesNotMatch(transitionTime({ at: at(90), recordedAt: at(89.5) }, NOW), /noted/);
});

test('the newest alert of the history comes first', () => {
  assert.deepEqual(
    newestFirst([
      { id: 1, raisedAt: at(9) },
      { id: 2, raisedAt: at(3) },
      { id: 3, raisedAt: at(3) },
    ]).map((one) => one.id),
    [3, 2, 1],
  );
});

test('figures as sentences, and nothing said where all is well', () => {
  const figures = {
    raised: 14,
    perDay: 2,
    from: '2026-02-22T12:00:00Z',
    to: '2026-03-01T12:00:00Z',
    mostInTenMinutes: 1,
    floods: [],
    stale: 0,
  };
  assert.equal(rateWords(figures), '14 alerts in the last 7 days: 2.0 a day.');
  assert.deepEqual(troubleWords(figures), []);
  const bad = troubleWords({ ...figures, floods: [{}], mostInTenMinutes: 22, stale: 1 });
  assert.match(bad[0], /1 flood: up to 22 alerts/);
  assert.match(bad[1], /1 alert stale/);
  assert.equal(groupMarks({ chattering: false, repeating: false, stale: 0 }), '');
  assert.match(groupMarks({ chattering: true, repeating: true, stale: 2 }), /^Chattering.*; 2 stale$/);
});

test('a hint is a sentence in the unit that the reader chose', () => {
  const hint = {
    setting: 'deadband',
    deadband: 0.5,
    onDelaySeconds: 600,
    offDelaySeconds: 600,
    raisedBefore: 9,
    raisedAfter: 1,
    text: '',
  };
  assert.equal(
    hintWords(hint, 'cold'),
    'With a deadband of 0.50 °C it would have been raised once instead of 9 times.',
  );
  setTemperatureUnit('F');
  assert.match(hintWords(hint, 'cold'), /0\.90 °F/);
  setTemperatureUnit('C');
  assert.match(hintWords({ ...hint, setting: 'offDelay', offDelaySeconds: 1800 }, 'cold'), /an off-delay of 30 min/);
  assert.equal(hintWords(null, 'cold'), '');
});

test('what did not arrive comes first, and says why', () => {
  const sent = (id, state, minutes) => ({
    notice: { id, createdAt: at(minutes) },
    deliveries: [
      { notifier: 'page', state: 'delivered' },
      { notifier: 'post', state },
    ],
  });
  assert.deepEqual(
    failedFirst([sent(1, 'delivered', 1), sent(2, 'waiting', 5), sent(3, 'failed', 60), sent(4, 'failed', 50)]).map(
      (one) => one.notice.id,
    ),
    [4, 3, 2, 1],
  );
  const words = deliveryWords(
    { notifier: 'post', state: 'failed', attempts: 8, nextAt: null, settledAt: at(3), words: 'the server refused it' },
    NOW,
  );
  assert.match(words, /^post: FAILED .*after 8 tries\. The server refused it$/);
  assert.match(
    deliveryWords(
      { notifier: 'post', state: 'waiting', attempts: 1, nextAt: at(-2), settledAt: null, words: null },
      NOW,
    ),
    /waiting, after 1 try, next try/,
  );
});

test('a notifier and the answer to its test in words', () => {
  assert.equal(
    notifierWords({ onlyForEscalation: false, lastDeliveredAt: null, waiting: 2, failed: 1 }, NOW),
    'Nothing delivered yet, 2 waiting, 1 failed.',
  );
  assert.equal(testWords({ delivered: true, words: 'sent to 1 open pages' }), 'It arrived: sent to 1 open pages.');
  assert.equal(testWords({ delivered: false, words: 'no answer in 10 s.' }), 'It did not arrive: no answer in 10 s.');
});

test('a device says what it will and what it cannot do', () => {
  assert.match(tellingWords(false, 'granted'), /quiet/);
  assert.match(tellingWords(true, 'granted'), /notification, as long/);
  assert.match(tellingWords(true, 'impossible'), /https/);
  assert.match(tellingWords(true, 'denied'), /not allowed/);
  assert.ok(isLoud({ kind: 'raised' }) && isLoud({ kind: 'escalation' }) && !isLoud({ kind: 'returned' }));
});

test('minutes of a pause: a comma is a decimal point, a week is the most', () => {
  assert.deepEqual(readMinutes(' 7,5 '), { minutes: 7.5, problem: null });
  for (const wrong of ['', '0', '-5', 'long', '10081']) assert.match(readMinutes(wrong).problem, /minutes/);
});

test('rules: only what was changed is sent, an emptied field brings back the default', () => {
  const rule = {
    overrides: { deadband: 0.5, onDelayMinutes: null, offDelayMinutes: null, priority: null },
    inService: true,
  };
  const typed = {
    'cold.deadband': '',
    'cold.onDelayMinutes': '12,5',
    'cold.offDelayMinutes': '',
    'cold.priority': '',
    'cold.inService': 'no',
  };
  const fieldOf = (name) => (name in typed ? { value: typed[name] } : null);
  assert.deepEqual(readRules({ cold: rule }, fieldOf), {
    changes: { cold: { deadband: null, onDelayMinutes: 12.5, inService: false } },
    problems: [],
  });
  typed['cold.deadband'] = '0,50';
  assert.deepEqual(readRules({ cold: { ...rule, unit: '°C' } }, fieldOf).changes.cold.deadband, 0.5);
  typed['cold.deadband'] = 'wide';
  assert.match(readRules({ cold: rule }, fieldOf).problems[0], /Too cold: “wide”/);
});

test('rules in Fahrenheit: a deadband has no offset, what was not touched is not sent, other units stay', () => {
  const overrides = { deadband: 0.3, onDelayMinutes: null, offDelayMinutes: null, priority: null };
  const rules = {
    cold: { unit: '°C', overrides, inService: true },
    dry: { unit: '%', overrides: { ...overrides, deadband: 2 }, inService: true },
  };
  const typed = { 'cold.deadband': '0.54', 'dry.deadband': '2' };
  const fieldOf = (name) =>
    name in typed
      ? { value: typed[name] }
      : name.endsWith('priority')
        ? { value: '' }
        : name.endsWith('inService')
          ? { value: 'yes' }
          : null;
  setTemperatureUnit('F');
  try {
    assert.deepEqual(readRules(rules, fieldOf), { changes: {}, problems: [] });
    typed['cold.deadband'] = '0,9';
    typed['dry.deadband'] = '3';
    assert.deepEqual(readRules(rules, fieldOf).changes, { cold: { deadband: 0.5 }, dry: { deadband: 3 } });
  } finally {
    setTemperatureUnit('C');
  }
});

test('the history is narrowed down to a container, a kind, or both', () => {
  const alerts = [
    { id: 1, container: 'b', containerName: 'Bag', kind: 'cold' },
    { id: 2, container: 'a', containerName: null, kind: 'cold' },
    { id: 3, container: 'b', containerName: 'Bag', kind: 'dry' },
  ];
  assert.deepEqual(historyChoices(alerts).container, [
    { value: '', text: 'All' },
    { value: 'a', text: 'a' },
    { value: 'b', text: 'Bag' },
  ]);
  assert.deepEqual(
    historyChoices(alerts).kind.map((one) => one.text),
    ['All', 'Too cold', 'Too dry'],
  );
  const ids = (choice) => narrowed(alerts, choice).map((one) => one.id);
  assert.deepEqual(ids({ container: '', kind: '' }), [1, 2, 3]);
  assert.deepEqual(ids({ container: 'b', kind: '' }), [1, 3]);
  assert.deepEqual(ids({ container: 'b', kind: 'cold' }), [1]);
  assert.deepEqual(ids({ container: 'a', kind: 'dry' }), []);
});
