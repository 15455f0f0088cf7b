// The service worker: keeps the pages and the last state of what they show, and answers with them while the service does
// not. The service puts the version and the list of files in front. Asks the service first, always.

const { version, files } = self.offline;
const PAGES = `pages-${version}`;
const STATE = 'state';
/** The header of an answer from the cache: when the service gave it. */
const KEPT_AT = 'Kept-At';
/** Limit for page files only: some answers of the API take longer. */
const FILE_LIMIT_MS = 15_000;
const MOST_ANSWERS = 200;
/** Answers that are not kept, because they are secret, large, or out of date at once. */
const NOT_KEPT =
  /^\/api\/(live|health|people|tokens|sessions|settings|sensor-accounts|notifiers|messages|rejects|export|imports?|record)\b|\/photo$|\.(csv|ics|svg|zip)$/;

/** Counts changes of the signed-in person. Answers to requests sent before a change are not cached. */
let personChanges = 0;

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
    // A stretch of time has other bounds each time, so that its answer would not be found again.
  } else if (!NOT_KEPT.test(pathname) && !searchParams.has('from')) event.respondWith(state(event));
});

async function dropOldVersions() {
  const names = await caches.keys();
  return Promise.all(names.filter((name) => name !== PAGES && name !== STATE).map((name) => caches.delete(name)));
}

/**
 * Caches all files, of the scripts only those in the language of the pages, if the service tells it. Without a login, a
 * page is a redirect and is not cached; changePerson caches it after the login.
 */
async function keepFiles() {
  const cache = await caches.open(PAGES);
  const page = await fetch('/', { cache: 'no-cache' });
  const scripts = `/scripts/${page.headers.get('Content-Language') ?? ''}`;
  const needed = files.filter((path) => !path.startsWith('/scripts/') || path.startsWith(scripts));
  await Promise.all(
    needed.map(async (path) => {
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
  personChanges += 1;
  await caches.delete(STATE);
}

/** The service's answer; rejected without a network, or if a proxy says that the service is away. */
async function ask(request) {
  const answer = await fetch(request);
  if (answer.status >= 502 && answer.status <= 504 && !isProblem(answer)) throw new Error(`status ${answer.status}`);
  return answer;
}

/** The service itself gives its reason as problem details, a proxy does not. */
const isProblem = (answer) => answer.headers.get('Content-Type')?.startsWith('application/problem+json') ?? false;

/** Rejected if the answer takes longer than FILE_LIMIT_MS. */
async function askForFile(request) {
  let timer;
  const late = new Promise((_, reject) => {
    timer = setTimeout(() => reject(new Error('no answer')), FILE_LIMIT_MS);
  });
  try {
    return await Promise.race([ask(request), late]);
  } finally {
    clearTimeout(timer);
  }
}

/** A page, script, style sheet or picture. */
async function file(event, path) {
  try {
    const answer = await askForFile(event.request);
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
  const asked = personChanges;
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
  if (asked !== personChanges) return;
  const cache = await caches.open(STATE);
  await cache.delete(url);
  await cache.put(url, new Response(body, { headers }));
  const known = await cache.keys();
  await Promise.all(known.slice(0, -MOST_ANSWERS).map((old) => cache.delete(old)));
  if (asked !== personChanges) await caches.delete(STATE);
}
