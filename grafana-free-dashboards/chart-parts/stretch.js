// Asks for the stretch of time shown, and asks again while it ends now.

import { now } from '../shared/clock.js';
import { byId } from '../shared/dom.js';
import { reloadEveryMs } from './load.js';

/**
 * @param range of the page; @param ask gives the answers for a span and the width of the charts, px
 * @param draw called with the answers and their span, unless another stretch was asked for meanwhile
 */
export function makeStretch({ range, ask, draw }) {
  let newest = 0;
  let askedAt = 0;

  async function load() {
    const number = ++newest;
    askedAt = now();
    const span = range.current();
    const charts = byId('charts');
    charts.setAttribute('aria-busy', 'true');
    try {
      const answers = await ask(span, charts.clientWidth);
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

  return { load, follow };
}
