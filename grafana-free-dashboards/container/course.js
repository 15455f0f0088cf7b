// The course of a container over the stretch of time shown: charts and tables.

import { edgeOf, loadCharts } from '../chart-parts/load.js';
import { makeRange } from '../chart-parts/range.js';
import { rangeWords } from '../chart-parts/range-words.js';
import { makeStretch } from '../chart-parts/stretch.js';
import { api } from '../shared/api.js';
import { byId, setText } from '../shared/dom.js';
import { makeCharts } from './charts.js';
import { showFaults } from './faults.js';
import { showTables } from './tables.js';

/**
 * @param id of the container
 * @param container the newest state of it
 * @param setup settings of the service
 * @param failed called with what went wrong when another stretch was chosen
 */
export function makeCourse({ id, container, setup, failed }) {
  let data = null;
  let pointed = null;
  /** When its readings begin; before the first one, when it was created. */
  const begin = () => Date.parse(container().heat?.from ?? container().createdAt);
  const range = makeRange(byId('range'), { begin, changed: () => change() });
  const stretch = makeStretch({ range, ask, draw: take });
  let charts = newCharts();
  byId('print').addEventListener('click', () => print());
  byId('compare').href = `/charts.html?container=${encodeURIComponent(id)}`;

  function newCharts() {
    return makeCharts({
      container,
      onZoom: (from, to) => range.zoom(from, to),
      onReset: () => range.reset(),
      lead(at, { from, to }) {
        pointed = at;
        byId('course-title').scrollIntoView();
        range.zoom(from, to);
      },
    });
  }

  /** Draws the new stretch from the samples at hand, until its own come. */
  function change() {
    charts.zoom(range.current());
    stretch.loadWhenPainted().catch(failed);
  }

  async function ask(span, width) {
    const [[answers], room] = await Promise.all([
      loadCharts([id], span, width),
      api.room({ ...span, points: width }).catch(() => null),
    ]);
    return { ...answers, room };
  }

  function take(answers, span) {
    data = { answers, span };
    draw();
  }

  function draw() {
    charts.show(data.answers, data.span, setup.timeZone, range.follows());
    showTables(container(), data.answers, setup);
    showFaults(data.answers, stretch.load);
    setText(byId('range-words'), rangeWords(data.span, range.follows()));
    if (pointed !== null && pointed <= edgeOf(data.span)) charts.pointAt(pointed);
    pointed = null;
  }

  /** Draws everything in the other unit. */
  function redraw() {
    charts.destroy();
    charts = newCharts();
    if (data) draw();
  }

  return { load: stretch.load, follow: () => data && stretch.follow(), redraw };
}
