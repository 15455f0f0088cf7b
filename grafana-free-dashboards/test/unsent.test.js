import assert from 'node:assert/strict';
import { test } from 'node:test';
import { makeUnsent, uuid, withUnsent } from '../tally/unsent.js';

function memory(kept = {}) {
  return {
    getItem: (name) => kept[name] ?? null,
    setItem: (name, value) => {
      kept[name] = value;
    },
  };
}
const away = Object.assign(new Error('away'), { unreachable: true });
const no = Object.assign(new Error('it counts 9, but there are 3'), { status: 409 });

test('a UUID of version 4 without help of the browser', () => {
  assert.equal(uuid(new Uint8Array(16).fill(255)), 'ffffffff-ffff-4fff-bfff-ffffffffffff');
  assert.match(uuid(), /^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
});

test('what cannot be sent waits, survives a reload, and is sent once, in order, with its own key', async () => {
  const storage = memory();
  let up = false;
  const arrived = [];
  const send = async (entry) => {
    if (!up) throw away;
    arrived.push(entry);
    return { ok: entry.path };
  };
  const first = makeUnsent({ storage, send });
  assert.equal((await first.add({ path: '/1', body: { germinated: 1 } })).state, 'waiting');
  assert.equal((await first.add({ path: '/2', body: {} })).state, 'waiting');
  const reloaded = makeUnsent({ storage, send });
  assert.equal(reloaded.list().length, 2);
  up = true;
  await Promise.all([reloaded.flush(), reloaded.flush()]);
  await reloaded.flush();
  assert.deepEqual(
    arrived.map((entry) => entry.path),
    ['/1', '/2'],
  );
  assert.deepEqual(
    arrived.map((entry) => entry.body.entry),
    arrived.map((entry) => entry.key),
  );
  assert.notEqual(arrived[0].key, arrived[1].key);
  assert.deepEqual(first.list(), []);
});

test('an answer lost on its way back: the same key goes out again', async () => {
  const keys = [];
  const unsent = makeUnsent({
    storage: memory(),
    send: async (entry) => {
      keys.push(entry.body.entry);
      if (keys.length < 3) throw away;
      return {};
    },
  });
  await unsent.add({ path: '/1', body: {} });
  await unsent.flush();
  assert.equal(keys.length, 3);
  assert.equal(new Set(keys).size, 1);
});

test('what is refused is told and holds nothing else up', async () => {
  const unsent = makeUnsent({
    storage: memory(),
    send: async (entry) => {
      if (entry.path === '/bad') throw no;
      return 7;
    },
  });
  const bad = await unsent.add({ path: '/bad', body: {} });
  assert.deepEqual([bad.state, bad.message], ['refused', no.message]);
  const good = await unsent.add({ path: '/good', body: {} });
  assert.deepEqual([good.state, good.answer], ['sent', 7]);
  assert.equal(unsent.list().length, 1);
  unsent.discard(bad.key);
  assert.equal(unsent.list().length, 0);
});

test('a browser that forbids storage still sends', async () => {
  const forbidden = {
    getItem: () => {
      throw new Error('no');
    },
    setItem: () => {
      throw new Error('no');
    },
  };
  let up = false;
  const unsent = makeUnsent({
    storage: forbidden,
    send: async () => {
      if (!up) throw away;
    },
  });
  await unsent.add({ path: '/1', body: {} });
  assert.equal(unsent.list().length, 1);
  up = true;
  await unsent.flush();
  assert.equal(unsent.list().length, 0);
});

test('waiting checks are counted in, and no seed is lost by it', () => {
  const group = { id: '1-1', ungerminated: 20, germinated: 2, culled: 1, potted: 0 };
  const check = {
    kind: 'check',
    group: '1-1',
    body: {
      germinated: 3,
      culled: [
        { count: 2, reason: 'mould' },
        { count: 1, reason: 'dead', germinated: true },
      ],
      pottedOn: 2,
    },
  };
  const counted = withUnsent(group, [check, { ...check, group: '1-2' }, { ...check, refused: 'no' }]);
  assert.deepEqual(counted, { id: '1-1', ungerminated: 15, germinated: 2, culled: 4, potted: 2 });
});
