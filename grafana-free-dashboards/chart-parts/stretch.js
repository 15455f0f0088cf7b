// Asks for the stretch of time shown, and asks again while it ends now.

import { now } from '../shared/clock.js';
import { byId } from '../shared/dom.js';
import { reloadEveryMs } from './load.js';

/** Not every browser tells when it is idle. */
const whenIdle = (work) => (globalThis.requestIdleCallback ?? setTimeout)(work);

/**
 * @param range of the page
 * @param ask gives the answers for a span and the width of the charts, px, as long as its third argument returns true
 * @param draw called with the answers and their span, unless another stretch was asked for meanwhile
 */
export function makeStretch({ range, ask, draw }) {
  let newest = 0;
  let askedAt = 0;

  /** @param first awaited before the service is asked */
  async function load(first = null) {
    const number = ++newest;
    askedAt = now();
    const charts = byId('charts');
    charts.setAttribute('aria-busy', 'true');
    try {
      await first;
      if (number !== newest) return;
      const span = range.current();
      const answers = await ask(span, charts.clientWidth, () => number === newest);
      if (number === newest) draw(answers, span);
    } finally {
      if (number === newest) charts.removeAttribute('aria-busy');
    }
  }

  /** Call it often: it asks again when the stretch ends now and the answers are old. */
  function follow() {
    if (!range.follows() || document.visibilityState === 'hidden') return;
    if (now() - askedAt >= reloadEveryMs(range.current())) load().catch(() => {});
  }

  /** After the browser has painted the stretch from the samples at hand. Of quick presses, only the last one asks. */
  const loadWhenPainted = () => load(new Promise((done) => requestAnimationFrame(() => whenIdle(done))));

  return { load: () => load(), loadWhenPainted, follow };
}
