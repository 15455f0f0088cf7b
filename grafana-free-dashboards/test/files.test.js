import assert from 'node:assert/strict';
import { test } from 'node:test';
import { exportAddress, exportChoices } from '../files/export-address.js';

const choice = (more) => ({ what: '', from: '', to: '', format: 'csv', calibrated: 'false', ...more });

test('an export of everything names only its format', () => {
  assert.equal(exportAddress(choice(), 'UTC'), '/api/export/readings?format=csv');
});

test('an export of days runs from the start of the first to the end of the last, in the zone of the browser', () => {
  const address = exportAddress(
    choice({
      what: 'container=jar-1',
      from: '2026-03-28',
      to: '2026-03-29',
      format: 'line-protocol',
      calibrated: 'true',
    }),
    'Europe/Berlin',
  );
  const query = new URL(address, 'http://host').searchParams;
  assert.deepEqual(Object.fromEntries(query), {
    container: 'jar-1',
    format: 'line-protocol',
    from: '2026-03-27T23:00:00.000Z',
    to: '2026-03-29T22:00:00.000Z',
    calibrated: 'true',
  });
});

test('days in the wrong order are refused', () => {
  assert.throws(() => exportAddress(choice({ from: '2026-03-02', to: '2026-03-01' }), 'UTC'), /last day is before/);
});

test('containers, the room and sensors can be chosen', () => {
  const choices = exportChoices([{ id: 'jar-1', name: 'Jar 1' }], [{ sensor: 'probe-1' }]);
  assert.deepEqual(
    choices.map(({ value }) => value),
    ['', 'container=jar-1', 'container=room', 'sensor=probe-1'],
  );
});
