// Lets the pages work without a network: starts the service worker, and tells how old the answers from the cache are.

import { byId } from './dom.js';

const WORKER = '/worker.js';

/** The answers from the cache that the page shows: address to the time (ms) at which the service gave it. */
const kept = new Map();

/** Browsers allow a service worker over TLS and on this machine only; elsewhere the foot says how to get it. */
export function keepForOffline() {
  if (!globalThis.isSecureContext || !navigator.serviceWorker) {
    byId('no-offline').hidden = false;
    return;
  }
  navigator.serviceWorker.register(WORKER, { updateViaCache: 'none' }).catch(() => {});
}

/**
 * Notes whether an answer came from the cache. Sends the event `kept-changed`.
 * @param keptAt when the service gave it; null for a fresh answer
 */
export function heardAt(address, keptAt) {
  const at = Date.parse(keptAt ?? '');
  if (!Number.isNaN(at)) kept.set(address, at);
  else if (!kept.delete(address)) return;
  globalThis.dispatchEvent?.(new Event('kept-changed'));
}

/** When the oldest answer was given that this page shows from the cache; null if all are fresh. */
export const keptSince = () => (kept.size === 0 ? null : Math.min(...kept.values()));

/** Deletes the answers that the browser keeps. For a person who signs out. */
export async function forgetState() {
  await globalThis.caches?.delete('state');
}

/** How many entries of the Tally wait on this device. */
export function unsentCount() {
  try {
    return JSON.parse(localStorage.getItem('tepidarium.unsent') ?? '[]').length;
  } catch {
    return 0; // storage may be forbidden: then nothing waits in it
  }
}

/** The service answers again, and the page asks for everything anew. */
export function freshAgain() {
  kept.clear();
  globalThis.dispatchEvent?.(new Event('kept-changed'));
}

const FIRST_WAIT_MS = 3000;
const LONGEST_WAIT_MS = 60_000;

/**
 * Asks again while the page is live and shows answers from the cache: a request can fail just when the network comes
 * back, and nothing else would send it again.
 */
export function askAgainForKept(load, isLive) {
  let waitMs = FIRST_WAIT_MS;
  let timer = null;
  const isNeeded = () => kept.size > 0 && isLive();
  globalThis.addEventListener('kept-changed', () => {
    if (!isNeeded()) return;
    timer ??= setTimeout(() => {
      timer = null;
      if (!isNeeded()) return;
      waitMs = Math.min(waitMs * 2, LONGEST_WAIT_MS);
      load();
    }, waitMs);
  });
}
