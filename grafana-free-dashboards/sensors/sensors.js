// Runs the page Sensors: the list of all, or the sheet of the one that the address names.

import { api } from '../shared/api.js';
import { byId, h } from '../shared/dom.js';
import { FollowedMap } from '../shared/maps.js';
import { startPage, untilItWorks } from '../shared/page.js';
import { nameOf } from '../shared/sensor-place.js';
import { showProblem } from '../shared/trouble.js';
import { drawAccounts, makeAccounts } from './accounts.js';
import { drawList, makeChoice } from './list.js';
import { makeSheet } from './sheet.js';
import { texts } from './texts.js';

const LOOK_AGAIN_MS = 60_000;
/** Activity that the service is still working out comes with a later answer. */
const UNFINISHED_MS = 1_500;
const MOST_REPEATS = 10;
const DRAW_EVERY_MS = 250;

const wanted = new URLSearchParams(location.search).get('sensor');
const sensors = new FollowedMap((one) => one.sensor);
const containers = new FollowedMap((one) => one.id);
let sheet = null;
let ready = false;
let repeats = 0;

startPage({
  current: '/sensors.html',
  reload: () => ready && load().catch(showTrouble),
  redraw: () => {
    sheet?.redraw();
    draw();
  },
  handlers: {
    sensor: (sensor) => {
      const before = sensors.get(sensor.sensor);
      sensors.set(sensor.sensor, {
        ...sensor,
        activity: sensor.activity ?? before?.activity,
        faults: sensor.faults ?? before?.faults,
      });
      soon();
    },
  },
});
begin();

async function begin() {
  if (wanted === null) {
    makeChoice(draw);
    makeAccounts();
  }
  try {
    await untilItWorks(load, showTrouble);
  } catch (problem) {
    showTrouble(problem);
    return;
  }
  ready = true;
  setInterval(() => load().catch(() => {}), LOOK_AGAIN_MS);
}

async function load() {
  await Promise.all([containers.load(api.containers), sensors.load(() => api.sensors({ activity: true }))]);
  if (wanted !== null && !sensors.has(wanted)) sensors.set(wanted, await api.sensor(wanted));
  byId('loading')?.remove();
  if (wanted !== null && sheet === null) {
    sheet = makeSheet(byId('sheet'), wanted, { sensors, containers, changed: take });
    byId('sheet').hidden = false;
  }
  byId('list-part').hidden = wanted !== null;
  if (wanted === null) await drawAccounts();
  draw();
  if ([...sensors.values()].some((sensor) => sensor.lastHeard && !sensor.activity) && repeats < MOST_REPEATS) {
    repeats += 1;
    setTimeout(() => load().catch(() => {}), UNFINISHED_MS);
  }
}

/** Takes sensors from an answer of the service. */
function take(changed) {
  for (const sensor of changed) sensors.set(sensor.sensor, sensor);
  draw();
}

let drawing = null;
function soon() {
  drawing ??= setTimeout(() => {
    drawing = null;
    draw();
  }, DRAW_EVERY_MS);
}

function draw() {
  if (wanted === null) {
    if (!byId('list-part').hidden) drawList(sensors, containers);
    return;
  }
  const sensor = sensors.get(wanted);
  if (!sensor || !sheet) return;
  document.title = `${nameOf(sensor)} · Tepidarium`;
  sheet.update();
}

function showTrouble(problem) {
  const place = byId('loading');
  if (!place) return;
  if (problem.missing) {
    place.replaceWith(
      h('h1', {}, texts.thereIsNoSensorHere(wanted)),
      h('p', {}, texts.nothingWasHeardFromIt, h('a', { href: '/sensors.html' }, texts.allSensors)),
    );
    return;
  }
  showProblem(place, problem);
}
