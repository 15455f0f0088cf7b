// Lets the pages work without a network: starts the service worker, and tells since when a kept state is.

import { byId } from './dom.js';

const WORKER = '/worker.js';

let since = null;

/** Browsers allow a service worker over TLS and on this machine only; elsewhere the foot says how to get it. */
export function keepForOffline() {
  if (!globalThis.isSecureContext || !navigator.serviceWorker) {
    byId('no-offline').hidden = false;
    return;
  }
  navigator.serviceWorker.register(WORKER, { updateViaCache: 'none' }).catch(() => {});
}

/** An answer came from the cache. @param keptAt when the service gave it; null for a fresh answer */
export function heardAt(keptAt) {
  const at = Date.parse(keptAt ?? '');
  if (!Number.isNaN(at)) since = Math.min(since ?? at, at);
}

/** When the oldest answer was given that this page shows from the cache; null if all are fresh. */
export const keptSince = () => since;

/** Deletes what is kept of the state, for a person who signs out. */
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
  since = null;
}
