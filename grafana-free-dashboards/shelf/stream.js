// Starts the page with its stream of changes.

import { startPage } from '../shared/page.js';

/** The page waits so long for its stream, which a proxy may hold back. */
const LIMIT_MS = 2000;

/**
 * Resolves when the stream is open, has failed, or takes too long. Who asks for data only then misses no change: the
 * stream brings those that come later.
 *
 * @param reload called when the stream is open; @param redraw called when the unit changes or the stream is lost
 */
export function startStream({ reload, redraw, handlers }) {
  return new Promise((known) => {
    setTimeout(known, LIMIT_MS);
    startPage({
      current: '/',
      reload: () => {
        reload();
        known();
      },
      redraw,
      lost: () => {
        redraw();
        known();
      },
      handlers,
    });
  });
}
