// The course of a container over the stretch of time shown: charts and tables.

import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';
import { byId, setText } from '../shared/dom.js';
import * as t from '../shared/time-format.js';
import { makeCharts } from './charts.js';
import { showFaults } from './faults.js';
import { makeRange } from './range.js';
import { showTables } from './tables.js';
import { texts } from './texts.js';

const MOST_POINTS = 900;
const DAY_MS = 86_400_000;

/**
 * @param id of the container
 * @param container the newest state of it
 * @param setup settings of the service
 * @param failed called with what went wrong when another stretch was chosen
 */
export function makeCourse({ id, container, setup, failed }) {
  let newestAsk = 0;
  let askedAt = 0;
  let data = null;
  /** When its readings begin; before the first one, when it was created. */
  const begin = () => Date.parse(container().heat?.from ?? container().createdAt);
  const range = makeRange(byId('range'), { begin, changed: () => load().catch(failed) });
  let charts = newCharts();

  function newCharts() {
    const onZoom = (from, to) => range.zoom(from, to);
    return makeCharts({ getBand: () => container().band, onZoom, onReset: () => range.reset() });
  }

  /** Fetches the stretch shown. Ignores the answer if another stretch was asked for meanwhile. */
  async function load() {
    const ask = ++newestAsk;
    askedAt = now();
    const span = range.current();
    const points = Math.min(MOST_POINTS, Math.max(200, byId('charts').clientWidth));
    byId('charts').setAttribute('aria-busy', 'true');
    try {
      const [readings, light, band, openings, faults, heat, room] = await Promise.all([
        api.readings(id, { ...span, points }),
        api.light(id, span),
        api.band(id, span),
        api.openings(id, span),
        api.faults(id, span),
        // Heat so far counts from the beginning, whatever stretch is looked at.
        api.heat(id, {}),
        api.room({ ...span, points }).catch(() => null),
      ]);
      if (ask !== newestAsk) return;
      data = { answers: { readings, light, band, openings, faults, heat, room }, span };
      draw();
    } finally {
      if (ask === newestAsk) byId('charts').removeAttribute('aria-busy');
    }
  }

  function draw() {
    charts.show(data.answers, data.span, setup.timeZone);
    showTables(container(), data.answers, setup);
    showFaults(data.answers, load);
    const from = t.stamp(data.span.from, now());
    const to = range.follows() ? texts.now : t.stamp(data.span.to, now());
    setText(byId('range-words'), texts.toTimesAsInDrag(from, to, t.browserZone()));
  }

  /** Reloads a stretch that ends now: every 20 s up to two days, every 2 min beyond. */
  function follow() {
    if (!data || !range.follows() || document.visibilityState === 'hidden') return;
    const { from, to } = range.current();
    const everyMs = to - from <= 2 * DAY_MS ? 20_000 : 120_000;
    if (now() - askedAt >= everyMs) load().catch(() => {});
  }

  /** Draws everything in the other unit. */
  function redraw() {
    charts.destroy();
    charts = newCharts();
    if (data) draw();
  }

  return { load, follow, redraw };
}
