import assert from 'node:assert/strict';
import { test } from 'node:test';
import { FollowedMap } from '../shared/maps.js';

const list = (...values) => values.map(([id, state]) => ({ id, state }));
const states = (map) => [...map.values()].map((one) => `${one.id} ${one.state}`).sort();

/** Asks twice; the answers come when the test lets them. */
function makeAsking() {
  const waiting = [];
  return {
    ask: () => new Promise((resolve) => waiting.push(resolve)),
    answer: (number, list_) => waiting[number](list_),
  };
}

test('what changed while a list was on its way is newer than the list', async () => {
  const map = new FollowedMap((one) => one.id);
  await map.load(async () => list([1, 'raised'], [2, 'raised']));
  const { ask, answer } = makeAsking();
  const loading = map.load(ask);
  map.set(1, { id: 1, state: 'seen' });
  map.delete(2);
  map.set(3, { id: 3, state: 'raised' });
  answer(0, list([1, 'raised'], [2, 'raised'], [4, 'raised']));
  await loading;
  assert.deepEqual(states(map), ['1 seen', '3 raised', '4 raised']);
  await map.load(async () => list([1, 'returned']));
  assert.deepEqual(states(map), ['1 returned'], 'a later list is newer than those changes');
});

test('a list that was overtaken is left, and one that failed changes nothing', async () => {
  const map = new FollowedMap((one) => one.id);
  const { ask, answer } = makeAsking();
  const first = map.load(ask);
  const second = map.load(ask);
  answer(1, list([1, 'new']));
  await second;
  answer(0, list([1, 'old']));
  assert.equal(await first, false);
  assert.deepEqual(states(map), ['1 new']);
  await assert.rejects(
    map.load(() => Promise.reject(new Error('away'))),
    /away/,
  );
  assert.deepEqual(states(map), ['1 new']);
});

test('a list that is a part takes no changes of others', async () => {
  const map = new FollowedMap((one) => one.id);
  await map.load(async () => list([1, 'old'], [2, 'old']));
  const { ask, answer } = makeAsking();
  const loading = map.load(ask, () => false);
  map.set(1, { id: 1, state: 'new' });
  map.set(2, { id: 2, state: 'new' });
  answer(0, list([2, 'old'], [3, 'old']));
  assert.equal(await loading, true);
  assert.deepEqual(states(map), ['2 new', '3 old']);
});
