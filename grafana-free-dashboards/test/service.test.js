import assert from 'node:assert/strict';
import { test } from 'node:test';
import { healthVerdict } from '../shared/health.js';
import texts from '../service/texts.en.js';
import { partRows } from '../service/words.js';

test('parts that do not work come first', () => {
  const parts = {
    broker: { status: 'up', detail: 'connected' },
    disk: { status: 'down', detail: 'full' },
    readings: { status: 'starting' },
    sensorAccounts: { status: 'up', detail: 'since 2026-03-01T09:00:00.123Z' },
  };
  const rows = partRows(parts, Date.parse('2026-03-01T12:00:00Z'), 'UTC');
  assert.deepEqual(
    rows.map((row) => [row.title, row.state, row.detail]),
    [
      ['Disk', 'does not work', 'full'],
      ['Readings', 'is starting', ''],
      ['Broker', 'works', 'connected'],
      ['Sensor accounts', 'works', 'since today 09:00'],
    ],
  );
});

test('a part that does not work says what that means; each with such words has a title', () => {
  const [disk, broker] = partRows({ broker: { status: 'up' }, disk: { status: 'down', detail: 'full' } }, 0, 'UTC');
  assert.match(disk.meaning, /^The disk is nearly full\./);
  assert.equal(broker.meaning, '');
  assert.deepEqual(
    Object.keys(texts.partsDown).filter((name) => !texts.parts[name]),
    [],
  );
});

test('the verdict is about the worst part', () => {
  assert.equal(healthVerdict({ status: 'up' }), 'The service works without problems.');
  const down = { status: 'degraded', parts: { disk: { status: 'down' }, broker: { status: 'up' } } };
  assert.equal(healthVerdict(down), 'A part of the service does not work.');
  assert.equal(healthVerdict({ status: 'starting', parts: {} }), 'The service is starting.');
});
