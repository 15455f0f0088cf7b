// How a page knows that it shows answers from the cache.

import assert from 'node:assert/strict';
import { afterEach, test } from 'node:test';
import { call } from '../shared/call.js';
import { freshAgain, keptSince } from '../shared/offline.js';

const NOON = Date.parse('2026-03-02T12:00:00Z');
const realFetch = globalThis.fetch;
afterEach(() => {
  globalThis.fetch = realFetch;
  freshAgain();
});

const ask = (path, keptAt, status = 200) => {
  const headers = keptAt === null ? {} : { 'Kept-At': new Date(keptAt).toISOString() };
  globalThis.fetch = async () => new Response('{}', { status, headers });
  return call('GET', path);
};

test('the oldest answer from the cache counts, until the service answers the same request', async () => {
  await ask('/api/rooms', null);
  assert.equal(keptSince(), null);
  await ask('/api/rooms', NOON);
  await ask('/api/tally', NOON - 1000);
  assert.equal(keptSince(), NOON - 1000);
  await assert.rejects(ask('/api/tally', null, 503));
  assert.equal(keptSince(), NOON - 1000);
  await ask('/api/tally', null);
  assert.equal(keptSince(), NOON);
  await ask('/api/rooms', null);
  assert.equal(keptSince(), null);
});
