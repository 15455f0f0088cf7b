// The service worker: keeps the pages and the last state of what they show, and answers with them while the service does
// not. The service puts the version and the list of files in front. Asks the service first, always.

const { version, files } = self.offline;
const PAGES = `pages-${version}`;
const STATE = 'state';
/** The header of an answer from the cache: when the service gave it. */
const KEPT_AT = 'Kept-At';
const PATIENCE_MS = 15_000;
const MOST_ANSWERS = 200;
/** Not kept: what is secret, large, or only of the moment. Answers about a time span are not asked for again. */
const NOT_KEPT =
  /^\/api\/(live|health|people|tokens|sessions|settings|sensor-accounts|notifiers|messages|rejects|export|imports?|record)\b|\/photo$|\.(csv|ics|svg|zip)$/;

/** Raised when another person may have signed in: an answer that was asked for before is then not kept. */
let people = 0;

self.addEventListener('install', (event) => event.waitUntil(keepFiles().then(() => self.skipWaiting())));

self.addEventListener('activate', (event) => event.waitUntil(dropOldVersions().then(() => self.clients.claim())));

/** The language was changed: the pages are kept in the new one. */
self.addEventListener('message', (event) => {
  if (event.data === 'language') event.waitUntil(keepFiles());
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const { origin, pathname, searchParams } = new URL(request.url);
  if (origin !== self.location.origin) return;
  if (pathname === '/api/session' && request.method !== 'GET') event.respondWith(changePerson(event));
  else if (request.method !== 'GET') return;
  else if (!pathname.startsWith('/api/')) {
    if (files.includes(pathname)) event.respondWith(file(event, pathname));
  } else if (!NOT_KEPT.test(pathname) && !searchParams.has('from')) event.respondWith(state(event));
});

async function dropOldVersions() {
  const names = await caches.keys();
  return Promise.all(names.filter((name) => name !== PAGES && name !== STATE).map((name) => caches.delete(name)));
}

/** A page that asks for a login is a redirect and is not kept; it is, after the login. */
async function keepFiles() {
  const cache = await caches.open(PAGES);
  await Promise.all(
    files.map(async (path) => {
      const answer = await fetch(path, { cache: 'no-cache' });
      if (isWhole(answer)) await cache.put(path, answer);
    }),
  );
}

const isWhole = (answer) => answer.status === 200 && !answer.redirected && answer.type === 'basic';

/** Signs in or out. What the service told the one before is forgotten. */
async function changePerson(event) {
  const answer = await fetch(event.request);
  if (answer.ok) {
    await forget();
    if (event.request.method === 'POST') event.waitUntil(keepFiles().catch(() => {}));
  }
  return answer;
}

async function forget() {
  people += 1;
  await caches.delete(STATE);
}

/** The service's answer; rejected if it takes too long or a proxy says that the service is away. */
async function ask(request) {
  let timer;
  const late = new Promise((_, reject) => {
    timer = setTimeout(() => reject(new Error('no answer')), PATIENCE_MS);
  });
  try {
    const answer = await Promise.race([fetch(request), late]);
    if (answer.status >= 502 && answer.status <= 504) throw new Error(`status ${answer.status}`);
    return answer;
  } finally {
    clearTimeout(timer);
  }
}

/** A page, script, style sheet or picture. */
async function file(event, path) {
  try {
    const answer = await ask(event.request);
    if (isWhole(answer)) {
      const copy = answer.clone();
      event.waitUntil(caches.open(PAGES).then((cache) => cache.put(path, copy)));
    }
    return answer;
  } catch {
    return (await caches.match(path, { ignoreVary: true })) ?? Response.error();
  }
}

/** An answer of the API, with the time at which it was given. */
async function state(event) {
  const { request } = event;
  const asked = people;
  try {
    const answer = await ask(request);
    if (answer.status === 401) await forget();
    else if (answer.status === 200) {
      const copy = answer.clone();
      event.waitUntil(keep(request.url, copy, asked));
    }
    return answer;
  } catch {
    const cache = await caches.open(STATE);
    return (await cache.match(request.url, { ignoreVary: true })) ?? Response.error();
  }
}

async function keep(url, answer, asked) {
  const headers = new Headers(answer.headers);
  headers.set(KEPT_AT, new Date().toISOString());
  const body = await answer.blob();
  if (asked !== people) return;
  const cache = await caches.open(STATE);
  await cache.delete(url);
  await cache.put(url, new Response(body, { headers }));
  const known = await cache.keys();
  await Promise.all(known.slice(0, -MOST_ANSWERS).map((old) => cache.delete(old)));
  if (asked !== people) await caches.delete(STATE);
}
