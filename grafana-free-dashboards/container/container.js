// Runs the page of one container: its state now, its course, its settings.

import { api } from '../shared/api.js';
import { announceChange } from '../shared/attention.js';
import { byId, h, setText } from '../shared/dom.js';
import { isLive, startPage, untilItWorks } from '../shared/page.js';
import { showProblem } from '../shared/trouble.js';
import { makeCourse } from './course.js';
import { makeExtremes } from './extremes.js';
import { makeNow, makeOpening, updateAlerts, updateNow, updateOpening } from './head.js';
import { showSensors } from './sensors.js';
import { makeSettings } from './settings.js';
import { loadSuggested } from './suggested.js';
import { texts } from './texts.js';

const id = new URLSearchParams(location.search).get('id') ?? '';
const LOOK_AGAIN_MS = 15_000;

const sensors = new Map();
let container = null;
let setup = null;
let course = null;
let settings = null;
let extremes = null;

startPage({
  current: null,
  reload: () => container && reload().catch(showTrouble),
  redraw,
  lost: () => course && take(container),
  handlers: {
    container: (next) => next.id === id && course && takeEvent(next),
    sensor: (sensor) => {
      sensors.set(sensor.sensor, sensor);
      if (container) showSensors(container, sensors);
    },
    alert: (alert) => alert.container === id && course && takeAlert(alert),
  },
});
begin();

async function begin() {
  try {
    // Without an id, the address is that of the list of all.
    if (id === '') throw new Error(texts.noContainerWasNamed);
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
  course = makeCourse({ id, container: () => container, setup, failed: showTrouble });
  take(container);
  await untilItWorks(reload, () => {}).catch(showTrouble);
  setInterval(() => {
    take(container);
  }, LOOK_AGAIN_MS);
}

/** Shows the newest state, from an event or an answer. Fetches nothing. */
function take(next) {
  container = next;
  settings.update(container);
  updateNow(container, setup, isLive());
  updateAlerts(container, takeAlert);
  updateOpening(container);
  showSensors(container, sensors);
  course.follow();
}

function takeAlert(alert) {
  const others = (container.alerts ?? []).filter((one) => one.id !== alert.id);
  announceChange(
    container.alerts?.find((one) => one.id === alert.id),
    alert,
  );
  take({ ...container, alerts: [...others, alert] });
}

/** Shows the changed container. Asks for its sensors if one was placed in it that this page does not know. */
function takeEvent(next) {
  take(next);
  if (next.sensors.every((name) => sensors.has(name))) return;
  loadSensors()
    .then(() => showSensors(container, sensors))
    .catch(() => {});
}

async function loadSensors() {
  for (const sensor of await api.sensors({ container: id })) sensors.set(sensor.sensor, sensor);
}

async function reload() {
  const [next] = await Promise.all([api.container(id), loadSensors()]);
  take(next);
  await course.load();
  await extremes.load();
  await loadSuggested(id, () => course.load().catch(showTrouble));
}

function redraw() {
  if (!container || !course) return;
  course.redraw();
  take(container);
  settings.redraw();
  extremes.redraw();
}

function showTrouble(problem) {
  const place = byId('loading');
  if (!place) {
    if (!problem.unreachable) setText(byId('range-words'), problem.message);
    return;
  }
  if (problem.missing || id === '') {
    document.title = texts.notFoundTepidarium;
    place.replaceWith(
      h('h1', {}, id === '' ? texts.noContainerWasNamed : texts.thereIsNoContainerHere(id)),
      h('p', {}, texts.itMayHaveBeenRemoved, h('a', { href: '/' }, texts.backToTheShelf)),
    );
    return;
  }
  showProblem(place, problem);
}
