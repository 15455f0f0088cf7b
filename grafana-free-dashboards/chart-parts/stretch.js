// Asks for the stretch of time shown, and asks again while it ends now.

import { now } from '../shared/clock.js';
import { byId } from '../shared/dom.js';
import { reloadEveryMs } from './load.js';

const IDLE_LIMIT_MS = 1000;

/** Not every browser tells when it is idle. */
function whenIdle(work) {
  if (globalThis.requestIdleCallback) requestIdleCallback(work, { timeout: IDLE_LIMIT_MS });
  else setTimeout(work);
}

/** Charts are saved and printed only while picture, sentence and table tell of one stretch. */
function letSave(may) {
  for (const button of document.querySelectorAll('.chart-tools button, #print')) button.disabled = !may;
}

/**
 * @param range of the page
 * @param ask gives the answers for a span and the width of the charts, px
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
      const answers = await ask(span, charts.clientWidth);
      if (number !== newest) return;
      draw(answers, span);
      letSave(true);
    } catch (problem) {
      if (number === newest) throw problem;
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
  function loadWhenPainted() {
    letSave(false);
    return load(new Promise((done) => requestAnimationFrame(() => whenIdle(done))));
  }

  return { load: () => load(), loadWhenPainted, follow };
}
