import assert from 'node:assert/strict';
import { test } from 'node:test';
import { localTimes } from '../shared/local-times.js';
import { batteryReason, changeVerdict, typedInstant } from '../sensors/change-words.js';
import { inputOf } from '../shared/time-format.js';
import { chosenRows, daysWords, gapWords, interval, rowOf, verdictWords } from '../sensors/list-words.js';

const AT = Date.parse('2026-03-20T12:00:00Z');
const containers = new Map([['jar-1', { id: 'jar-1', name: 'Cacao jar' }]]);
const battery = (more) => ({
  volts: 3.9,
  emptyVolts: 3.3,
  daysLeft: 43.4,
  daysLeast: 38.2,
  daysMost: 50.4,
  low: false,
  reason: null,
  ...more,
});
const activity = (more) => ({
  usualIntervalSeconds: 300,
  lateSeconds: 0,
  late: false,
  gaps: { day: { count: 0, hours: 0 }, week: { count: 2, hours: 3.1 } },
  battery: battery(),
  ...more,
});
const sensor = (name, more) => ({
  sensor: name,
  lastHeard: '2026-03-20T11:58:00Z',
  latest: { temperature: { value: 30.2 }, battery: { value: 3.91 } },
  placements: [{ container: 'jar-1', from: '2026-03-01T00:00:00Z', until: null }],
  name: null,
  note: null,
  retired: null,
  device: { rssi: -61, firmware: '1.4.2', at: '2026-03-20T11:58:00Z' },
  activity: activity(),
  ...more,
});
const row = (name, more) => rowOf(sensor(name, more), containers, AT);

test('a row tells how a sensor reports, its battery and its signal', () => {
  const one = row('probe-1');
  assert.equal(one.where, 'in Cacao jar');
  assert.equal(one.latest, '30.2 °C');
  assert.equal(one.reporting, 'every 5 min · 2 gaps in 7 days, together 3.1 h');
  assert.equal(one.battery, '3.91 V, about 43 days left (38 to 50)');
  assert.equal(one.device, '\u221261 dBm · firmware 1.4.2');
  const late = row('probe-2', { activity: activity({ late: true, lateSeconds: 754 }) });
  assert.equal(late.reporting, 'every 5 min · late by 12.6 min · 2 gaps in 7 days, together 3.1 h');
});

test('a sensor that sends little, or whose activity is not worked out, has shorter rows', () => {
  const bare = row('bare', { latest: {}, device: null, activity: null, placements: [] });
  assert.deepEqual([bare.where, bare.reporting, bare.battery, bare.device], ['without a place', '', '', '']);
  assert.equal(row('volts', { activity: null }).battery, '3.91 V');
});

test('days left are told with their doubt, or not at all', () => {
  assert.equal(
    daysWords(battery({ daysLeft: 9.44, daysLeast: 8, daysMost: null })),
    'about 9.4 days left (8.0 or more)',
  );
  assert.equal(daysWords(battery({ volts: 3.2, daysLeft: 0, daysLeast: 0, daysMost: 0 })), 'empty');
  const none = { daysLeft: null, daysLeast: null, daysMost: null };
  assert.equal(daysWords(battery({ ...none, reason: 'flat' })), 'no fall yet');
  assert.equal(daysWords(battery({ ...none, daysLeast: 60, reason: 'flat' })), 'at least 60 days left');
  assert.equal(daysWords(battery({ ...none, reason: 'tooShort' })), '');
  for (const reason of ['tooShort', 'flat', 'rising', 'unknownCells']) {
    assert.match(batteryReason({ reason }), /^Days left: not known/);
  }
  assert.equal(batteryReason(battery()), '');
});

test('intervals have one unit', () => {
  assert.equal(interval(5), '5 s');
  assert.equal(interval(90), '90 s');
  assert.equal(interval(299.98), '5 min');
  assert.equal(interval(450), '7.5 min');
  assert.equal(interval(3 * 3600), '3 h');
  assert.equal(interval(72 * 3600), '3 days');
  assert.equal(gapWords({ count: 1, hours: 0.75 }, '24 h'), '1 gap in 24 h, of 45 min');
});

const rows = [
  row('node-10'),
  row('node-2', {
    name: 'Lid',
    activity: activity({ late: true, lateSeconds: 9000, battery: battery({ daysLeft: 3, low: true }) }),
  }),
  row('node-1', { placements: [], device: { rssi: -90, firmware: null } }),
  row('old', {
    retired: '2026-03-10T08:00:00Z',
    placements: [],
    activity: activity({ battery: battery({ low: true }) }),
  }),
];
const names = (choice) => chosenRows(rows, choice).map((one) => one.key);

test('a search finds name, topic, place and firmware, whatever the case and order of its words', () => {
  assert.deepEqual(names({ q: 'JAR lid' }), ['node-2']);
  assert.deepEqual(names({ q: 'node-2' }), ['node-2']);
  assert.deepEqual(names({ q: 'without place' }), ['node-1']);
  assert.deepEqual(names({ q: '1.4.2 cacao node' }), ['node-2', 'node-10']);
  assert.deepEqual(names({ q: 'nothing' }), []);
});

test('the choice shows each group, and an order puts the worst first', () => {
  assert.deepEqual(names({ show: 'placed' }), ['node-2', 'node-10']);
  assert.deepEqual(names({ show: 'unplaced' }), ['node-1']);
  assert.deepEqual(names({ show: 'late' }), ['node-2']);
  assert.deepEqual(names({ show: 'low' }), ['node-2']);
  assert.deepEqual(names({ show: 'retired' }), ['old']);
  assert.deepEqual(names({ sort: 'name' }), ['node-2', 'node-1', 'node-10', 'old']);
  assert.equal(names({ sort: 'battery' })[0], 'node-2');
  assert.equal(names({ sort: 'late' })[0], 'node-2');
  assert.equal(names({ sort: 'signal' })[0], 'node-1');
});

test('of 500 sensors found, the most late come first', () => {
  const many = Array.from({ length: 500 }, (_, i) => row(`node-${i}`, { activity: activity({ lateSeconds: i % 7 }) }));
  const found = chosenRows(many, { q: 'node jar', sort: 'late' });
  assert.equal(found.length, 500);
  const late = found.map((one) => one.order.late);
  assert.deepEqual(
    late,
    [...late].sort((a, b) => b - a),
  );
  assert.equal(late[0], 6);
});

test('the verdict counts what needs a look; retired sensors need none', () => {
  assert.equal(verdictWords(rows), '3 sensors in use: 1 late, 1 with a low battery, 1 without a place.');
  assert.equal(verdictWords([rows[0]]), '1 sensor in use: all report, and no battery is low.');
  assert.equal(verdictWords([]), 'No sensor has been heard yet.');
});

const figures = (degreeHours) => ({ degreeHours, coveredHours: 10, gapHours: 0, hoursInBand: 9, shareInBand: 0.9 });

test('a change shows which figures changed', () => {
  const change = (before, after) => [{ container: 'jar-1', name: 'Cacao jar', before, after }];
  assert.equal(
    changeVerdict('Moved.', change(figures(812.4), figures(640))),
    'Moved. Cacao jar: 812 °C·h became 640 °C·h.',
  );
  assert.equal(changeVerdict('Moved.', change(null, figures(64))), 'Moved. Cacao jar: now 64.0 °C·h.');
  assert.equal(
    changeVerdict('Moved.', change(figures(64), null)),
    'Moved. Cacao jar: no longer measured (was 64.0 °C·h).',
  );
  assert.equal(changeVerdict('Moved.', change(figures(64), figures(64.01))), 'Moved. No figure changed.');
  assert.equal(
    changeVerdict('Moved.', change(figures(64), { ...figures(64), shareInBand: 0.8, gapHours: 2 })),
    'Moved. Cacao jar: inside limits 90.0 % became 80.0 %, gaps 0.0 h became 2.0 h.',
  );
});

test('messages of the service tell times in the browser\u2019s zone', () => {
  assert.equal(
    localTimes('from is 2026-03-19T23:30:00Z, before 2026-03-20T05:00:12.5Z. Choose later', AT, 'Europe/Berlin'),
    'from is today 00:30, before today 06:00. Choose later',
  );
});

test('an untouched time keeps its seconds, a typed one is taken', () => {
  const exact = '2026-03-20T05:00:12.345Z';
  assert.equal(typedInstant(inputOf(exact), exact), exact);
  assert.equal(typedInstant(inputOf('2026-03-20T06:00:00Z'), exact), '2026-03-20T06:00:00.000Z');
  assert.equal(typedInstant('', exact), undefined);
  assert.equal(inputOf(null), '');
});
