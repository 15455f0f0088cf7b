// Runs the Shelf: all containers, with their alerts on top.

import { isOpen } from '../shared/alert-words.js';
import { api } from '../shared/api.js';
import { announceChange } from '../shared/attention.js';
import { makeCard, updateCard } from '../shared/card.js';
import { now } from '../shared/clock.js';
import { standing } from '../shared/container-words.js';
import { byId, reconcile } from '../shared/dom.js';
import { replaceAll } from '../shared/maps.js';
import { isLive, startPage, untilItWorks } from '../shared/page.js';
import { showProblem } from '../shared/trouble.js';
import { drawAttention } from './attention-part.js';
import { loadDay, loadDays } from './days.js';
import { connectButtons, makeGuide } from './guide.js';
import { placeOf } from '../shared/sensor-place.js';
import { drawRoom } from './room.js';
import { drawUnplaced } from './unplaced.js';

const DAYS_EVERY_MS = 5 * 60_000;
const LOOK_AGAIN_MS = 15_000;

const containers = new Map();
const sensors = new Map();
const alerts = new Map();
const days = new Map();
let setup = { maxGapMinutes: 30 };
let guide = null;

startPage({
  current: '/',
  reload: () => guide && load().catch(showTrouble),
  redraw: draw,
  lost: draw,
  handlers: {
    container: takeContainer,
    sensor: (sensor) => {
      sensors.set(sensor.sensor, sensor);
      soon();
    },
    alert: takeAlert,
  },
});
begin();

async function begin() {
  try {
    setup = await untilItWorks(api.setup, showTrouble);
    guide = makeGuide({
      host: byId('guide'),
      setup,
      created: (container) => {
        takeContainer(container);
        draw();
      },
      placed: (sensor) => {
        sensors.set(sensor.sensor, sensor);
        load().catch(showTrouble);
      },
    });
    await untilItWorks(load, showTrouble);
  } catch (problem) {
    showTrouble(problem);
    return;
  }
  byId('loading').remove();
  if (!anyPlaced()) guide.open(true);
  connectButtons(guide);
  loadAllDays();
  // No event tells of containers that were removed on another device.
  setInterval(() => load().then(loadAllDays, () => {}), DAYS_EVERY_MS);
  // Values become old with time, also without an event.
  setInterval(draw, LOOK_AGAIN_MS);
}

async function load() {
  const [allContainers, allSensors, open, shelved] = await Promise.all([
    api.containers(),
    api.sensors(),
    api.alerts('open'),
    api.alerts('shelved'),
  ]);
  replaceAll(containers, allContainers, (one) => one.id);
  replaceAll(sensors, allSensors, (one) => one.sensor);
  replaceAll(alerts, [...open, ...shelved], (one) => one.id);
  draw();
}

function takeContainer(container) {
  const isNew = !containers.has(container.id);
  containers.set(container.id, container);
  if (isNew) loadDay(container, takeDay);
  soon();
}

function takeDay(id, day) {
  days.set(id, day);
  soon();
}

const loadAllDays = () => loadDays([...containers.values()], takeDay);

function takeAlert(alert) {
  announceChange(alerts.get(alert.id), alert);
  if (isOpen(alert)) alerts.set(alert.id, alert);
  else alerts.delete(alert.id);
  soon();
}

/** Combines events within 60 ms into one drawing. Uses a timer: pages in the background get no animation frames. */
let drawing = null;
function soon() {
  drawing ??= setTimeout(() => {
    drawing = null;
    draw();
  }, 60);
}

function draw() {
  if (!guide) return;
  const at = now();
  const list = [...containers.values()];
  byId('containers-part').hidden = list.length === 0;
  byId('shelf-actions').hidden = list.length === 0;
  reconcile(
    byId('containers'),
    list,
    (one) => one.id,
    makeCard,
    (card, container) =>
      updateCard(card, { container, day: days.get(container.id), maxGapMinutes: setup.maxGapMinutes, live: isLive() }),
  );
  drawAttention({ containers, alerts, changed: takeAlert });
  drawRoom({ sensors, containers, at, maxGapMinutes: setup.maxGapMinutes });
  drawUnplaced({ sensors, containers, at, place: (sensor) => guide.show('place', { sensor }) });
  guide.update(sensors, containers);
  const waiting = list.filter((one) => ['act', 'silent'].includes(standing(one, at, setup.maxGapMinutes).level)).length;
  document.title = waiting > 0 ? `(${waiting}) Shelf · Tepidarium` : 'Shelf · Tepidarium';
}

const anyPlaced = () => [...sensors.values()].some((sensor) => containers.has(placeOf(sensor, now())));

function showTrouble(problem) {
  showProblem(byId('loading'), problem);
}
