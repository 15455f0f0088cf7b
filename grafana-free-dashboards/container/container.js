// One container: how it is, how it went, and what can be done about it.

import { api } from '../shared/api.js';
import { byId, h, problemBox, setText } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { now } from '../shared/clock.js';
import { announceChange } from '../shared/attention.js';
import { makeNow, makeOpening, updateAlerts, updateNow, updateOpening } from './head.js';
import { makeCharts } from './charts.js';
import { makeExtremes } from './extremes.js';
import { makeRange } from './range.js';
import { makeSettings, showSensors } from './settings.js';
import { showTables } from './tables.js';
import { loadSuggested } from './suggested.js';
import { isLive, startPage, untilItWorks } from '../shared/page.js';

const id = new URLSearchParams(location.search).get('id') ?? '';
const LOOK_AGAIN_MS = 15_000;
const MOST_POINTS = 900;

const sensors = new Map();
let container = null;
let setup = null;
let charts = null;
let settings = null;
let range = null;
let extremes = null;
let data = null;
let newestAsk = 0;
let askedAt = 0;

startPage({
  current: null,
  reload: () => container && reload().catch(showTrouble),
  redraw,
  lost: () => container && settings && take(container),
  handlers: {
    container: (next) => next.id === id && container && take(next),
    sensor: (sensor) => {
      sensors.set(sensor.sensor, sensor);
      if (container) showSensors(container, sensors);
    },
    alert: (alert) => alert.container === id && container && takeAlert(alert),
  },
});
begin();

async function begin() {
  try {
    setup = await untilItWorks(api.setup, showTrouble);
    container = await untilItWorks(() => api.container(id), showTrouble);
  } catch (problem) {
    showTrouble(problem);
    return;
  }
  byId('loading').remove();
  byId('content').hidden = false;
  makeNow(container);
  makeOpening(id, (opening) => take({ ...container, opening }));
  settings = makeSettings(container, take);
  extremes = makeExtremes(id);
  range = makeRange(byId('range'), {
    created: Date.parse(container.createdAt),
    changed: () => course().catch(showTrouble),
  });
  makeCourse();
  take(container);
  await untilItWorks(reload, () => {}).catch(showTrouble);
  setInterval(() => {
    take(container);
    followTime();
  }, LOOK_AGAIN_MS);
}

function makeCourse() {
  charts?.destroy();
  charts = makeCharts({
    getBand: () => container.band,
    onZoom: (from, to) => range.zoom(from, to),
    onReset: () => range.reset(),
  });
}

/** The newest state, from an event or an answer; nothing is fetched here. */
function take(next) {
  container = next;
  settings.update(container);
  updateNow(container, setup, isLive());
  updateAlerts(container, takeAlert);
  updateOpening(container);
  showSensors(container, sensors);
  followTime();
}

function takeAlert(alert) {
  const others = (container.alerts ?? []).filter((one) => one.id !== alert.id);
  announceChange(
    container.alerts?.find((one) => one.id === alert.id),
    alert,
  );
  take({ ...container, alerts: [...others, alert] });
}

async function reload() {
  const [next, all] = await Promise.all([api.container(id), api.sensors()]);
  for (const sensor of all) sensors.set(sensor.sensor, sensor);
  take(next);
  await course();
  await extremes.load();
  await loadSuggested(id, () => course().catch(showTrouble));
}

/** Fetches the stretch of time shown. A later question overtakes an earlier one whose answer comes late. */
async function course() {
  const ask = ++newestAsk;
  askedAt = now();
  const span = range.current();
  const points = Math.min(MOST_POINTS, Math.max(200, byId('charts').clientWidth));
  byId('charts').setAttribute('aria-busy', 'true');
  try {
    const [readings, light, band, openings, heat, room] = await Promise.all([
      api.readings(id, { ...span, points }),
      api.light(id, span),
      api.band(id, span),
      api.openings(id, span),
      // Heat so far counts from the beginning, whatever stretch is looked at.
      api.heat(id, {}),
      api.room({ ...span, points }).catch(() => null),
    ]);
    if (ask !== newestAsk) return;
    data = { answers: { readings, light, band, openings, heat, room }, span };
    drawCourse();
  } finally {
    if (ask === newestAsk) byId('charts').removeAttribute('aria-busy');
  }
}

function drawCourse() {
  charts.show(data.answers, data.span, setup.timeZone);
  showTables(container, data.answers, setup);
  setText(
    byId('range-words'),
    `${f.stamp(data.span.from, now())} to ${range.follows() ? 'now' : f.stamp(data.span.to, now())}, times as in ${f.browserZone()}. Drag sideways over a chart for a closer look; double-click or tap twice to go back.`,
  );
}

/** A stretch that ends now moves on with the time: often where minutes show, seldom where only days do. */
function followTime() {
  if (!data || !range.follows() || document.visibilityState === 'hidden') return;
  const { from, to } = range.current();
  const everyMs = to - from <= 2 * 86_400_000 ? 20_000 : 120_000;
  if (now() - askedAt >= everyMs) course().catch(() => {});
}

function redraw() {
  if (!container || !charts) return;
  makeCourse();
  take(container);
  settings.redraw();
  extremes.redraw();
  if (data) drawCourse();
}

function showTrouble(problem) {
  const place = byId('loading');
  if (!place) {
    if (!problem.unreachable) setText(byId('range-words'), problem.message);
    return;
  }
  if (problem.status === 404 || id === '') {
    document.title = 'Not found · Tepidarium';
    place.classList.remove('loading');
    place.replaceChildren(
      h('strong', {}, id === '' ? 'No container was named.' : `There is no container “${id}” here.`),
      ' It may have been removed, or the link is mistyped. ',
      h('a', { href: '/' }, 'Back to the Shelf'),
    );
    return;
  }
  place.replaceChildren(problemBox(problem), problem.unreachable ? 'Trying again by itself.' : '');
}
