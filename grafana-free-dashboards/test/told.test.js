// What became of the notices about alerts, in words.

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { nobodyWords, toldWords } from '../alerts/told-words.js';
import { moment } from '../shared/time-format.js';

const NOW = Date.parse('2026-03-02T12:00:00Z');
const clock = (minutes) => new Date(NOW + 60_000 * minutes).toISOString();
const delivery = (more) => ({
  notifier: 'email',
  state: 'delivered',
  attempts: 1,
  nextAt: null,
  settledAt: clock(-4),
  words: null,
  ...more,
});
const time = (minutes) => moment(clock(minutes), NOW);

test('each alert says by whom it was told, and what failed', () => {
  const waiting = { state: 'waiting', attempts: 3, nextAt: clock(5), settledAt: null, words: 'connection refused' };
  const one = {
    announcedAt: clock(-5),
    waiting: null,
    notices: [
      { kind: 'reminder', createdAt: clock(-1), delivery: delivery(waiting) },
      { kind: 'raised', createdAt: clock(-5), delivery: delivery({ notifier: 'page' }) },
      { kind: 'raised', createdAt: clock(-5), delivery: delivery({}) },
    ],
  };
  assert.deepEqual(toldWords(one, {}, NOW), [
    `Reminded ${time(-1)}: e-mail: waiting, after 3 tries, next try today ${time(5)}. Connection refused.`,
    `Told ${time(-5)}: open pages: delivered today ${time(-4)}; e-mail: delivered today ${time(-4)}.`,
  ]);
  assert.deepEqual(toldWords(undefined, {}, NOW), []);
});

test('a notice that was perhaps sent says why', () => {
  const perhaps = { state: 'perhaps-sent', words: 'the service ended' };
  const one = {
    announcedAt: clock(-5),
    waiting: null,
    notices: [{ kind: 'raised', createdAt: clock(-5), delivery: delivery(perhaps) }],
  };
  assert.deepEqual(toldWords(one, {}, NOW), [
    `Told ${time(-5)}: e-mail: perhaps sent today ${time(-4)} (the service ended meanwhile), not sent again.`,
  ]);
});

test('each alert that nobody was told of says why', () => {
  const words = (reason, until, alert = {}) =>
    toldWords({ announcedAt: null, waiting: { reason, until }, notices: [] }, alert, NOW)[0];
  assert.equal(words('acknowledged', null), 'Nobody was told: it was acknowledged first.');
  assert.equal(words('quiet', clock(90)), `Nobody has been told yet: quiet hours until ${time(90)}.`);
  assert.equal(
    words('paused', null, { shelvedUntil: clock(30) }),
    `Nobody has been told yet: it is paused until ${time(30)}.`,
  );
  assert.match(words('collecting', clock(1)), /collected until/);
  assert.match(words('grouped', clock(9)), new RegExp(`The next one is sent at ${time(9)} or later`));
  assert.deepEqual(toldWords({ announcedAt: clock(-9), waiting: null, notices: [] }, {}, NOW), [
    `Told ${time(-9)}, within a notice about several.`,
  ]);
});

test('without e-mail and webhook only open pages are told', () => {
  assert.match(nobodyWords([{ kind: 'page' }, { kind: 'mqtt' }]), /no e-mail/);
  assert.equal(nobodyWords([{ kind: 'page' }, { kind: 'webhook' }]), '');
});
