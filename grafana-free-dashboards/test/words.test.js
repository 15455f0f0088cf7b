import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { test } from 'node:test';
import { alertDetail, alertStanding, groupAlerts, isOpen } from '../shared/alert-words.js';
import { heatBounds, standing } from '../shared/container-words.js';
import { REMEDIES, remedyFor } from '../shared/remedies.js';
import rejectsDe from '../rejects/texts.de.js';
import rejectsEn from '../rejects/texts.en.js';

const NOW = Date.parse('2026-03-01T12:00:00Z');
const ago = (minutes) => new Date(NOW - minutes * 60_000).toISOString();
const latest = (value, minutes = 0) => ({ value, at: ago(minutes), sensor: 's' });
const inside = { cold: 'inside', hot: 'inside', light: 'inside', dry: 'inside', silent: 'inside' };
const container = (more = {}) => ({
  id: 'jar',
  name: 'Jar',
  sensors: ['s'],
  limits: inside,
  alerts: [],
  opening: null,
  band: { temperature: { low: 29.5, high: 34 }, light: { high: 1 }, humidity: { low: 80 } },
  latest: { temperature: latest(31), humidity: latest(97), light: latest(0) },
  ...more,
});
const alert = (more = {}) => ({
  id: 1,
  container: 'jar',
  kind: 'cold',
  state: 'active',
  acknowledged: false,
  shelvedUntil: null,
  since: ago(190),
  raisedAt: ago(180),
  returnedAt: null,
  limit: 29.5,
  value: 26,
  worst: 24.1,
  ...more,
});

test('all is well only when all is known', () => {
  assert.deepEqual(standing(container(), NOW, 30), {
    level: 'fine',
    title: 'In order',
    lines: ['Warm, dark and moist.'],
  });
  const dark = standing(
    container({
      limits: { ...inside, light: 'unknown' },
      latest: { temperature: latest(31), humidity: latest(97), light: null },
    }),
    NOW,
    30,
  );
  assert.match(dark.lines[0], /Warm and moist\. Not measured: darkness\./);
});

test('values that nobody has judged yet are not called in order', () => {
  const unjudged = Object.fromEntries(Object.keys(inside).map((kind) => [kind, 'unknown']));
  assert.deepEqual(standing(container({ limits: unjudged }), NOW, 30), {
    level: 'unsure',
    title: 'Not checked yet',
    lines: ['Its temperature is compared with its limits from the next reading on.'],
  });
});

test('a silent container is not a fine one, even if its last value was', () => {
  const silent = { limits: { ...inside, silent: 'alert' } };
  assert.equal(standing(container(silent), NOW, 30).level, 'silent');
  const old = standing(container({ ...silent, latest: { temperature: latest(31, 47) } }), NOW, 30);
  assert.equal(old.level, 'silent');
  assert.match(old.lines[0], /Nothing heard for 47 min/);
  assert.deepEqual(standing(container({ ...silent, latest: {} }), NOW, 30), {
    level: 'silent',
    title: 'Silent',
    lines: ['Nothing has been heard from its sensor yet.'],
  });
});

test('an old value is called old, not silent, unless the alert says so', () => {
  const hourly = { latest: { temperature: latest(31, 47), humidity: null, light: null } };
  for (const silent of ['inside', 'unknown']) {
    assert.deepEqual(standing(container({ ...hourly, limits: { ...inside, silent } }), NOW, 30), {
      level: 'unsure',
      title: 'Was in order',
      lines: ['In order at the last reading, 47 min ago.'],
    });
  }
  const unjudged = { ...hourly, limits: { ...inside, cold: 'unknown' } };
  assert.equal(standing(container(unjudged), NOW, 30).title, 'Not checked yet');
  assert.equal(standing(container({ ...hourly, limits: { ...inside, cold: 'alert' } }), NOW, 30).level, 'act');
});

test('no sensor, nothing known', () => {
  assert.equal(standing(container({ sensors: [], latest: {} }), NOW, 30).level, 'empty');
  assert.equal(standing(container({ latest: { temperature: null } }), NOW, 30).title, 'No reading yet');
});

test('outside the band: just now, then an alert, then known', () => {
  const cold = { latest: { temperature: latest(24.1) }, limits: { ...inside, cold: 'outside' } };
  assert.equal(standing(container(cold), NOW, 30).level, 'watch');
  assert.match(standing(container(cold), NOW, 30).lines[0], /5\.4 °C below 29\.5 °C\. An alert follows/);
  const alarmed = { ...cold, limits: { ...inside, cold: 'alert' }, alerts: [alert()] };
  assert.deepEqual(standing(container(alarmed), NOW, 30), {
    level: 'act',
    title: 'Needs you',
    lines: ['Too cold: 5.4 °C below 29.5 °C, for 3 h 10 min.'],
  });
  assert.equal(standing(container({ ...alarmed, alerts: [alert({ acknowledged: true })] }), NOW, 30).level, 'seen');
});

test('light during an opening is no trouble', () => {
  const open = container({ limits: { ...inside, light: 'outside' }, opening: { from: ago(2), until: ago(-8) } });
  assert.equal(standing(open, NOW, 30).level, 'open');
  assert.ok(!standing(open, NOW, 30).lines.some((line) => line.startsWith('Light inside')));
});

test('alerts in words', () => {
  assert.equal(alertDetail(alert(), NOW), 'Below 29.5 °C for 3 h 10 min, coldest 24.1 °C, now 26.0 °C.');
  assert.match(alertDetail(alert({ kind: 'silent', limit: null, worst: null }), NOW), /^Nothing heard for 3 h 10 min/);
  assert.equal(
    alertDetail(alert({ kind: 'light', state: 'returned', limit: 1, worst: 900, returnedAt: ago(178) }), NOW),
    'Was above 1 lux for 12 min, brightest 900 lux.',
  );
  assert.match(alertStanding(alert({ shelvedUntil: ago(-30) }), NOW), /^Paused until/);
});

test('over but unseen is still open', () => {
  assert.ok(isOpen(alert({ state: 'returned' })));
  assert.ok(!isOpen(alert({ state: 'returned', acknowledged: true })));
});

test('a forecast is told with its time, a doubtful sensor with its signs', () => {
  const ahead = alert({
    kind: 'headingCold',
    limit: 120,
    value: 60,
    worst: 55,
    detail: 'the English words of the service',
    trend: { value: 30.1, perHour: -1.2, steady: 24 },
    forecastAt: ago(-60),
  });
  assert.match(
    alertDetail(ahead, NOW),
    /^For 3 h 10 min, now 30\.1 °C and changing by −1\.2 °C an hour, towards about 24\.0 °C, outside at about .+\.$/,
  );
  const faulty = alert({
    kind: 'faulty',
    limit: 0,
    value: 1,
    worst: 1,
    detail: 'the same value for six hours',
    forecastAt: null,
  });
  assert.equal(alertDetail(faulty, NOW), 'For 3 h 10 min, the same value for six hours.');
});

test('one failed mat is one thing; silence and light stay single; cold comes before heat', () => {
  const alerts = [
    alert({ id: 1, kind: 'hot', container: 'd' }),
    alert({ id: 2, container: 'a' }),
    alert({ id: 3, container: 'b' }),
    alert({ id: 4, kind: 'silent', container: 'c' }),
  ];
  const groups = groupAlerts(alerts, (id) => (id === 'd' ? null : 'Mat'), NOW);
  assert.deepEqual(
    groups.map((group) => group.alerts.map((one) => one.id)),
    [[2, 3], [4], [1]],
  );
});

test('bounds of heat are told only when there are gaps', () => {
  assert.equal(heatBounds({ gapHours: 0, lower: 5, upper: 5 }), '');
  assert.equal(heatBounds({ gapHours: 2, lower: 100, upper: 138 }), '2 h missing: between 100 and 138 °C·h');
  assert.equal(
    heatBounds({ gapHours: 2, leftOutHours: 1.5, lower: 100, upper: 138 }),
    '2 h missing (1 h 30 min left out because of faults): between 100 and 138 °C·h',
  );
});

test('every code of a reject has a remedy', async () => {
  const description = await readFile(new URL('../../src/main/resources/openapi.yaml', import.meta.url), 'utf8');
  const codes = description.match(/enum: \[(topic, unmapped-topic, [^\]]*)\]/)[1].split(', ');
  assert.deepEqual(Object.keys(REMEDIES), codes);
  assert.deepEqual(Object.keys(rejectsEn.reasons), codes);
  assert.deepEqual(Object.keys(rejectsDe.reasons), codes);
  assert.match(remedyFor({ code: 'json', reason: 'whatever the words' }), /complete JSON/);
  assert.match(remedyFor({ code: 'a-later-code' }), /guide/);
});
