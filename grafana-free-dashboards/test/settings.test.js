import assert from 'node:assert/strict';
import { test } from 'node:test';
import { byGroup, placeWords, stateWords, typedValue, valueWords, wanted } from '../settings/words.js';

const setting = (name, more = {}) => ({
  name,
  kind: 'text',
  place: 'default',
  placeName: null,
  set: false,
  value: null,
  secret: false,
  changeable: true,
  fileOnly: false,
  waiting: false,
  default: 'none',
  meaning: 'a meaning',
  ...more,
});

test('settings stand in groups, those of the broker last', () => {
  const names = ['brokerUser', 'site.latitude', 'notices.email.host', 'maxSensors', 'data', 'httpPort'];
  const groups = byGroup(names.map((name) => setting(name)));
  assert.deepEqual(
    groups.map(({ title }) => title),
    ['Notices', 'Sensors and readings', 'Place and time', 'Storage and backups', 'Pages and login', 'Broker'],
  );
  assert.deepEqual(groups.map(({ settings }) => settings.map(({ name }) => name)).flat(), [
    'notices.email.host',
    'maxSensors',
    'site.latitude',
    'data',
    'httpPort',
    'brokerUser',
  ]);
});

test('a value is shown, a default is named, a secret is not shown', () => {
  assert.equal(valueWords(setting('logFormat', { default: 'text' })), 'text (default)');
  assert.equal(valueWords(setting('logFormat', { set: true, value: 'json' })), 'json');
  assert.equal(valueWords(setting('maxSensors', { set: true, value: 5 })), '5');
  assert.equal(valueWords(setting('brokerPassword', { set: true, secret: true })), 'set, not shown');
});

test('the place of a setting is named', () => {
  assert.equal(placeWords(setting('a')), '');
  assert.equal(placeWords(setting('a', { place: 'file', placeName: '/etc/x.yaml' })), 'in /etc/x.yaml');
  assert.equal(
    stateWords(setting('a', { place: 'environment', placeName: 'TEPIDARIUM_A', waiting: true })),
    'Set by the environment variable TEPIDARIUM_A. Waits for the next start.',
  );
});

test('the list is narrowed by state and by a part of name or meaning', () => {
  const all = [setting('maxGapMinutes'), setting('data', { set: true, meaning: 'folder for a GAP' })];
  assert.equal(wanted(all, { show: 'all', search: ' gap ' }).length, 2);
  assert.deepEqual(
    wanted(all, { show: 'set', search: '' }).map(({ name }) => name),
    ['data'],
  );
  assert.equal(wanted(all, { show: 'all', search: 'zzz' }).length, 0);
});

test('settings with a form are in the list only if the form cannot change them', () => {
  const all = [
    setting('notices.email.host'),
    setting('notices.email.certificateFile', { changeable: false }),
    setting('notices.summaryAt'),
  ];
  assert.deepEqual(
    wanted(all, { show: 'all', search: '' }).map(({ name }) => name),
    ['notices.email.certificateFile', 'notices.summaryAt'],
  );
});

test('numbers are sent as numbers, with a decimal comma too; empty means the default', () => {
  assert.equal(typedValue({ kind: 'number' }, ' 2,5 '), 2.5);
  assert.equal(typedValue({ kind: 'whole' }, '20'), 20);
  assert.equal(typedValue({ kind: 'whole' }, 'many'), 'many');
  assert.equal(typedValue({ kind: 'text' }, '07:30'), '07:30');
  assert.equal(typedValue({ kind: 'whole' }, ''), null);
});
