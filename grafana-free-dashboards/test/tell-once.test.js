import assert from 'node:assert/strict';
import { test } from 'node:test';
import { missedNotices, newestOf, tellOnce } from '../shared/tell-once.js';

const notice = (id, createdAt = '2026-03-01T06:00:00Z') => ({ id, createdAt });

/** Stands for the BroadcastChannel of one page: delivers to all others at once. */
class Channel {
  static all = [];
  constructor() {
    Channel.all.push(this);
  }
  addEventListener(_, hear) {
    this.hear = hear;
  }
  postMessage(data) {
    Channel.all.filter((other) => other !== this).forEach((other) => other.hear({ data }));
  }
}

/**
 * Pages of one browser, one for each eagerness. `told` lists who told what, as page:id; `decide` lets the time
 * pass after which each page decides.
 */
function pages(eagerness) {
  Channel.all = [];
  const told = [];
  const waiting = [];
  const take = eagerness.map((eager, place) =>
    tellOnce({
      channel: new Channel(),
      eagerness: () => eager,
      tell: ({ id }) => told.push(`${place}:${id}`),
      later: (decide) => waiting.push(decide),
    }),
  );
  return { take, told, decide: () => waiting.splice(0).forEach((each) => each()) };
}

test('of several pages the one that can tell best does', () => {
  const { take, told, decide } = pages([1, 3, 0]);
  for (const id of [7, 8]) take.forEach((page) => page(notice(id)));
  assert.deepEqual(told, []);
  decide();
  assert.deepEqual(told, ['1:7', '1:8']);
});

test('of equal pages exactly one tells', () => {
  const { take, told, decide } = pages([1, 1, 1]);
  for (let id = 1; id <= 20; id++) take.forEach((page) => page(notice(id)));
  decide();
  assert.deepEqual(
    told.map((each) => Number(each.split(':')[1])).sort((a, b) => a - b),
    Array.from({ length: 20 }, (_, i) => i + 1),
  );
});

test('a page that a notice reaches late does not tell it again, however eager', () => {
  const { take, told, decide } = pages([0, 3]);
  take[0](notice(7));
  decide();
  take[1](notice(7));
  decide();
  assert.deepEqual(told, ['0:7']);
});

test('a page among others waits 250 ms for them', ({ mock }) => {
  mock.timers.enable({ apis: ['setTimeout'] });
  Channel.all = [];
  const told = [];
  const take = tellOnce({ channel: new Channel(), eagerness: () => 0, tell: ({ id }) => told.push(id) });
  take(notice(7));
  mock.timers.tick(249);
  assert.deepEqual(told, []);
  mock.timers.tick(1);
  assert.deepEqual(told, [7]);
});

test('a page alone tells at once, the same notice once, and each test', () => {
  const told = [];
  const take = tellOnce({ channel: null, eagerness: () => 0, tell: ({ id }) => told.push(id) });
  for (const each of [notice(7), notice(7), notice(8), notice(0), notice(0), notice(0, '2026-03-01T06:00:09Z')])
    take(each);
  assert.deepEqual(told, [7, 8, 0, 0]);
});

test('what went out while a page heard nothing: the last few, in their order, and only what open pages were to be told', () => {
  const sent = (id, ...notifiers) => ({ notice: notice(id), deliveries: notifiers.map((notifier) => ({ notifier })) });
  const listed = [
    sent(9, 'page'),
    sent(8, 'escalation'),
    sent(7, 'email', 'page'),
    sent(6, 'page'),
    sent(5, 'page'),
    sent(4, 'page'),
  ];
  assert.deepEqual(
    missedNotices(listed, 4).map(({ id }) => id),
    [6, 7, 9],
  );
  assert.deepEqual(missedNotices(listed, 9), []);
  assert.equal(newestOf(listed), 9);
  assert.equal(newestOf([]), 0);
});
