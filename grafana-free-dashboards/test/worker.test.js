// Which answers the service worker passes on, and which it replaces with the kept one.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import vm from 'node:vm';

const SOURCE = readFileSync(new URL('../shared/worker.js', import.meta.url), 'utf8');
const ORIGIN = 'https://shed.example';
const PROBLEM = { 'Content-Type': 'application/problem+json' };

/** A worker with a network that the test replaces, a cache for each name, and a clock that the test moves. */
function worker(files = ['/shelf.js']) {
  const handlers = {};
  const stores = new Map();
  const timers = [];
  const address = (key) => new URL(key.url ?? key, ORIGIN).href;
  const open = async (name) => {
    if (!stores.has(name)) stores.set(name, new Map());
    const store = stores.get(name);
    return {
      match: async (key) => store.get(address(key))?.clone(),
      put: async (key, answer) => store.set(address(key), answer),
      delete: async (key) => store.delete(address(key)),
      keys: async () => [...store.keys()],
    };
  };
  const caches = {
    open,
    delete: async (name) => stores.delete(name),
    match: async (key) => [...stores.values()].map((store) => store.get(address(key))).find(Boolean),
  };
  const sandbox = {
    self: {
      offline: { version: 'v', files },
      location: { origin: ORIGIN },
      addEventListener: (name, handler) => (handlers[name] = handler),
    },
    caches,
    fetch: (request) => sandbox.network(request),
    setTimeout: (work, ms) => timers.push({ work, ms }),
    clearTimeout: () => {},
    ...{ URL, Headers, Response, Date, Error, Promise },
  };
  vm.runInNewContext(SOURCE, sandbox);
  /** The worker's answer, after everything that it wanted to finish. */
  async function get(path) {
    let answer;
    const rest = [];
    const request = { url: ORIGIN + path, method: 'GET' };
    const respondWith = (promise) => (answer = promise);
    handlers.fetch({ request, respondWith, waitUntil: (promise) => rest.push(promise) });
    const given = await answer;
    await Promise.all(rest);
    return given;
  }
  /** Sends the worker an event, and waits until the worker has handled it. */
  async function tell(data) {
    const done = [];
    handlers.message({ data, waitUntil: (promise) => done.push(promise) });
    await Promise.all(done);
  }
  return {
    sandbox,
    timers,
    get,
    tell,
    keep: async (path, text) => (await open('pages-v')).put(path, new Response(text)),
  };
}

async function withKeptTally() {
  const one = worker();
  one.sandbox.network = async () => new Response('old');
  assert.equal(await (await one.get('/api/tally')).text(), 'old');
  return one;
}

test('the service’s own refusal passes, with its reason', async () => {
  const one = await withKeptTally();
  one.sandbox.network = async () => new Response('disk full', { status: 503, headers: PROBLEM });
  const answer = await one.get('/api/tally');
  assert.deepEqual([answer.status, await answer.text()], [503, 'disk full']);
});

test('without a network, or when a proxy says that the service is away, the kept answer is given with its time', async () => {
  const one = await withKeptTally();
  for (const status of [0, 502, 503, 504]) {
    one.sandbox.network = async () => {
      if (status === 0) throw new TypeError('no network');
      return new Response('away', { status, headers: { 'Content-Type': 'text/html' } });
    };
    const answer = await one.get('/api/tally');
    assert.equal(await answer.text(), 'old');
    assert.ok(Date.parse(answer.headers.get('Kept-At')));
  }
  one.sandbox.network = async () => new Response('wrong', { status: 500 });
  assert.equal((await one.get('/api/tally')).status, 500);
});

test('only page files have a limit of time', async () => {
  const one = await withKeptTally();
  let settle;
  one.sandbox.network = () => new Promise((give) => (settle = give));
  const slow = one.get('/api/tally');
  assert.deepEqual(one.timers, []);
  settle(new Response('new'));
  assert.equal(await (await slow).text(), 'new');

  await one.keep('/shelf.js', 'kept file');
  const file = one.get('/shelf.js');
  assert.equal(one.timers.length, 1);
  one.timers[0].work();
  assert.equal(await (await file).text(), 'kept file');
});

test('the scripts of the language of the pages are kept, those of others are not', async () => {
  const one = worker(['/', '/scripts/de/shelf.js', '/scripts/en/shelf.js', '/shelf/shelf.css']);
  const asked = new Set();
  one.sandbox.network = async (path) => {
    asked.add(path);
    return new Response('', { headers: { 'Content-Language': 'de' } });
  };
  await one.tell('language');
  assert.deepEqual([...asked], ['/', '/scripts/de/shelf.js', '/shelf/shelf.css']);
});
