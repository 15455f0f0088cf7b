import assert from 'node:assert/strict';
import { test } from 'node:test';
import { canStart, choicesOf, progressWords, rowWords, typedOf } from '../files/import-words.js';
import { tableOf, takenWords, troubleByLine } from '../files/record-words.js';
import { exportChoices, exportQuery } from '../files/export-address.js';

const choice = (more) => ({ what: '', from: '', to: '', format: 'csv', calibrated: 'false', ...more });

test('an export of everything names only its format', () => {
  assert.equal(String(exportQuery(choice(), 'UTC')), 'format=csv');
});

test('an export of days runs from the start of the first to the end of the last, in the zone of the page', () => {
  const query = exportQuery(
    choice({
      what: 'container=jar-1',
      from: '2026-03-28',
      to: '2026-03-29',
      format: 'line-protocol',
      calibrated: 'true',
    }),
    'Europe/Berlin',
  );
  assert.deepEqual(Object.fromEntries(query), {
    container: 'jar-1',
    format: 'line-protocol',
    from: '2026-03-27T23:00:00.000Z',
    to: '2026-03-29T22:00:00.000Z',
    calibrated: 'true',
  });
});

test('days in the wrong order are refused', () => {
  assert.throws(() => exportQuery(choice({ from: '2026-03-02', to: '2026-03-01' }), 'UTC'), /last day is before/);
});

test('containers, the room and sensors can be chosen', () => {
  const choices = exportChoices([{ id: 'jar-1', name: 'Jar 1' }], [{ sensor: 'probe-1' }]);
  assert.deepEqual(
    choices.map(({ value }) => value),
    ['', 'container=jar-1', 'container=room', 'sensor=probe-1'],
  );
});

test('the progress of an import in words', () => {
  const one = { state: 'running', percent: 40, stored: 12000, repeated: 3, rejected: 1, problem: null };
  assert.equal(progressWords(one), 'Running, 40 %: 12\u202f000 readings stored, 3 there already, 1 row rejected.');
  assert.equal(progressWords({ ...one, state: 'ready' }), 'Not started.');
  assert.equal(
    progressWords({ ...one, state: 'failed', stored: 1, repeated: 0, rejected: 0, problem: 'the disk is full' }),
    'Failed, 40 %: 1 reading stored. the disk is full.',
  );
});

test('an import that runs or is done has no preview', () => {
  assert.deepEqual(['ready', 'running', 'stopped', 'done', 'failed'].filter(canStart), ['ready', 'stopped', 'failed']);
});

test('the rows of a preview in words, and choices without empty fields', () => {
  const row = { line: 2, sensor: 'jar', at: '2026-03-01T05:00:00Z', values: { temperature: 29.5 }, rejected: null };
  assert.equal(rowWords(row, { temperature: '°C' }), 'Line 2: jar, Sun 1 Mar 2026 05:00, temperature 29.5 °C');
  assert.equal(rowWords({ ...row, rejected: 'no time' }, {}), 'Line 2 is rejected: no time');
  assert.deepEqual(choicesOf({ sensor: '', zone: 'UTC' }), { zone: 'UTC' });
});

test('choices become the texts of the fields and come back', () => {
  const columns = { 2: 'temperature:F', 'Probe A': 'humidity@jar-1' };
  const choices = { sensor: null, zone: '+01:00', headerLine: 3, columns };
  const typed = typedOf(choices);
  assert.deepEqual(typed, {
    sensor: '',
    zone: '+01:00',
    headerLine: '3',
    columns: '2=temperature:F\nProbe A=humidity@jar-1',
  });
  assert.deepEqual(choicesOf(typed), { zone: '+01:00', headerLine: 3, columns });
  assert.throws(() => choicesOf({ columns: '2 temperature' }), /"2 temperature" is not a column and its meaning/);
});

test('what an import answers', () => {
  assert.equal(takenWords({ table: 'lots', rows: 12, added: 3 }), 'Seed lots: 12 rows read, 3 new.');
  assert.equal(takenWords({ table: 'species', rows: 1, added: 0 }), 'Species: 1 row read, nothing new.');
  assert.equal(takenWords({ table: 'species', rows: 0, added: 0 }), 'Species: the file holds no row.');
  assert.equal(tableOf('Lots (2).csv'), 'lots');
  assert.equal(tableOf('calibration-points.csv'), 'calibration-points');
  assert.equal(tableOf('calibrations.csv'), 'calibrations');
  assert.equal(tableOf('harvest.csv'), null);
});

test('the problems of an import are listed line by line', () => {
  const lines = [
    { line: 2, detail: 'no such species' },
    { line: 5, field: 'seeds', rule: 'number', figures: { value: 'many' }, detail: 'seeds must be a number' },
  ];
  assert.deepEqual(troubleByLine({ message: 'so', answer: { table: { file: 'lots.csv', lines, more: 3 } } }), {
    message: 'Nothing was imported. In lots.csv:',
    problems: ['Line 2: no such species', 'Line 5: Please check seeds: a number is needed, not “many”.', 'And 3 more.'],
  });
  const zip = { message: 'so', answer: { rule: 'no-zip', figures: {} } };
  assert.deepEqual(troubleByLine(zip), {
    message: 'Nothing was imported:',
    problems: ['This is not a zip file with tables such as lots.csv.'],
  });
  const other = { message: 'the service cannot be reached', answer: {} };
  assert.equal(troubleByLine(other), other);
});
