import assert from 'node:assert/strict';
import { test } from 'node:test';
import { setTimeout as wait } from 'node:timers/promises';
import { missedNotices, newestOf, tellOnce } from '../tell-once.js';

const WAIT_MS = 20;
const LONG_ENOUGH_MS = 200;
const notice = (id, createdAt = '2026-03-01T06:00:00Z') => ({ id, createdAt });

/** Pages of one browser, each of an eagerness; what they told is noted by their place. */
function pages(eagerness, work) {
  const told = [];
  const channels = eagerness.map(() => new BroadcastChannel('tell-once.test'));
  const take = eagerness.map((eager, place) => tellOnce({ channel: channels[place], eagerness: () => eager, tell: ({ id }) => told.push(`${place}:${id}`), waitMs: WAIT_MS }));
  return work(take, told).finally(() => channels.forEach((channel) => channel.close()));
}

test('of several pages the one that can tell best does', () => pages([1, 3, 0], async (take, told) => {
  for (const id of [7, 8]) take.forEach((page) => page(notice(id)));
  await wait(LONG_ENOUGH_MS);
  assert.deepEqual(told, ['1:7', '1:8']);
}));

test('of equal pages exactly one tells', () => pages([1, 1, 1], async (take, told) => {
  for (let id = 1; id <= 20; id++) take.forEach((page) => page(notice(id)));
  await wait(LONG_ENOUGH_MS);
  assert.deepEqual(told.map((each) => Number(each.split(':')[1])).sort((a, b) => a - b), Array.from({ length: 20 }, (_, i) => i + 1));
}));

test('a page that a notice reaches late does not tell it again, however eager', () => pages([0, 3], async (take, told) => {
  take[0](notice(7));
  await wait(LONG_ENOUGH_MS);
  take[1](notice(7));
  await wait(LONG_ENOUGH_MS);
  assert.deepEqual(told, ['0:7']);
}));

test('a page alone tells at once, the same notice once, and each test', () => {
  const told = [];
  const take = tellOnce({ channel: null, eagerness: () => 0, tell: ({ id }) => told.push(id) });
  for (const each of [notice(7), notice(7), notice(8), notice(0), notice(0), notice(0, '2026-03-01T06:00:09Z')]) take(each);
  assert.deepEqual(told, [7, 8, 0, 0]);
});

test('what went out while a page heard nothing: the last few, in their order, and only what open pages were to be told', () => {
  const sent = (id, ...notifiers) => ({ notice: notice(id), deliveries: notifiers.map((notifier) => ({ notifier })) });
  const listed = [sent(9, 'page'), sent(8, 'escalation'), sent(7, 'email', 'page'), sent(6, 'page'), sent(5, 'page'), sent(4, 'page')];
  assert.deepEqual(missedNotices(listed, 4).map(({ id }) => id), [6, 7, 9]);
  assert.deepEqual(missedNotices(listed, 9), []);
  assert.equal(newestOf(listed), 9);
  assert.equal(newestOf([]), 0);
});
