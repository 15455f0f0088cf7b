import assert from 'node:assert/strict';
import { test } from 'node:test';
import { healthVerdict } from '../shared/health.js';
import { partRows } from '../service/words.js';

test('parts that do not work come first', () => {
  const rows = partRows({
    broker: { status: 'up', detail: 'connected' },
    disk: { status: 'down', detail: 'full' },
    readings: { status: 'starting' },
  });
  assert.deepEqual(
    rows.map((row) => [row.title, row.state, row.detail]),
    [
      ['Disk', 'does not work', 'full'],
      ['Readings', 'is starting', ''],
      ['Broker', 'works', 'connected'],
    ],
  );
});

test('the verdict is about the worst part', () => {
  assert.equal(healthVerdict({ status: 'up' }), 'The service works without problems.');
  const down = { status: 'degraded', parts: { disk: { status: 'down' }, broker: { status: 'up' } } };
  assert.equal(healthVerdict(down), 'A part of the service does not work.');
  assert.equal(healthVerdict({ status: 'starting', parts: {} }), 'The service is starting.');
});
