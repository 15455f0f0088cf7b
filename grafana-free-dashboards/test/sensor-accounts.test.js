import assert from 'node:assert/strict';
import { test } from 'node:test';
import { accountWords, anonymousWords, refusedWords, topicsOf } from '../sensors/account-words.js';

test('the page says which sensors need an account', () => {
  assert.match(anonymousWords({ embedded: true, anonymous: 'loopback' }), /other machines need an account/);
  assert.match(anonymousWords({ embedded: true, anonymous: 'everywhere' }), /set anonymousSensors: loopback/);
  assert.match(anonymousWords({ embedded: false, anonymous: 'loopback' }), /own broker/);
});

test('refused connections are counted and the latest is named', () => {
  assert.equal(refusedWords({ count: 0, clientId: '', address: '' }), '');
  assert.equal(
    refusedWords({ count: 1, clientId: 'jar-1', address: '192.168.1.7' }),
    '1 connection refused without an account within the last hour, the latest from “jar-1” at 192.168.1.7. If it is yours, make an account for it.',
  );
  assert.match(
    refusedWords({ count: 2, clientId: '', address: '::1' }),
    /^2 connections .* a client without an id at ::1/,
  );
});

test('an account lists its topics', () => {
  assert.equal(accountWords({ topics: ['a/#', 'b'], reads: ['c'] }), 'publishes to a/#, b · reads c');
});

test('topics are separated by spaces or commas', () => {
  assert.deepEqual(topicsOf(' a/#  b,c '), ['a/#', 'b', 'c']);
  assert.equal(topicsOf('  '), undefined);
});
