// Runs the Shelf: all containers, with their alerts on top.

import { isOpen } from '../shared/alert-words.js';
import { api } from '../shared/api.js';
import { announceChange, openAlerts } from '../shared/attention.js';
import { now } from '../shared/clock.js';
import { byId } from '../shared/dom.js';
import { FollowedMap } from '../shared/maps.js';
import { isLive, untilItWorks } from '../shared/page.js';
import { placeOf } from '../shared/sensor-place.js';
import { showProblem } from '../shared/trouble.js';
import { drawAttention } from './attention-part.js';
import { USUAL_GAP_MINUTES, makeContainersPart } from './containers-part.js';
import { connectButtons } from './guide-buttons.js';
import { makeGuide } from './guide.js';
import { drawRoom } from './room.js';
import { startStream } from './stream.js';
import { drawUnplaced } from './unplaced.js';
import { texts } from './texts.js';

const LOAD_AGAIN_MS = 5 * 60_000;
const LOOK_AGAIN_MS = 15_000;

/** Those outside the containers; all of them while the guide is open, whose choices list every one. */
const sensors = new FollowedMap((one) => one.sensor);
const alerts = new FollowedMap((one) => one.id);
const part = makeContainersPart({ alerts, alertChanged: takeAlert, drawn: soon });
const { containers } = part;
let setup = { maxGapMinutes: USUAL_GAP_MINUTES };
let guide = null;
let loaded = false;
let loading = null;
// The first containers need neither the settings nor the rest of the page, which begins in a task of its own.
const first = part.loadFirst().catch(() => {});
setTimeout(begin);

async function begin() {
  const streamKnown = startStream({
    reload,
    redraw: drawAll,
    handlers: { container: part.take, sensor: takeSensor, alert: takeAlert },
  });
  try {
    setup = await untilItWorks(api.setup, showTrouble);
    if (setup.maxGapMinutes !== USUAL_GAP_MINUTES) part.drawAll({ maxGapMinutes: setup.maxGapMinutes });
    guide = makeGuide({
      host: byId('guide'),
      setup,
      created: (container) => {
        part.take(container);
        reload();
      },
      placed: (sensor) => {
        sensors.set(sensor.sensor, sensor);
        reload();
      },
      opened: () => loadSensors().then(draw, showTrouble),
    });
    await Promise.all([first, streamKnown]);
    await untilItWorks(() => loaded || loading || load(), showTrouble);
    draw();
  } catch (problem) {
    showTrouble(problem);
    return;
  }
  byId('loading').remove();
  if (isNew()) guide.open(true);
  connectButtons(guide);
  // No event tells of containers that were removed on another device.
  setInterval(() => load().catch(() => {}), LOAD_AGAIN_MS);
  // Values become old with time, also without an event.
  setInterval(drawAll, LOOK_AGAIN_MS);
}

function load() {
  loading = loadAll().finally(() => (loading = null));
  return loading;
}

const reload = () => void load().catch(showTrouble);

async function loadAll() {
  await Promise.all([part.load(), loadSensors(), alerts.load(openAlerts)]);
  loaded = true;
  draw();
}

function loadSensors() {
  return sensors.load(() => api.sensors({ outside: byId('guide').hidden }));
}

/** Only sensors outside the containers are shown on the shelf itself. */
function takeSensor(sensor) {
  sensors.set(sensor.sensor, sensor);
  if (!byId('guide').hidden || !containers.has(placeOf(sensor, now()))) soon();
}

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

function drawAll() {
  part.drawAll({ live: isLive() });
  draw();
}

/** Draws all but the containers themselves. */
function draw() {
  if (!guide || !loaded) return;
  const at = now();
  const empty = containers.size === 0;
  byId('shelf-actions').hidden = empty;
  drawAttention({ containers, alerts, changed: takeAlert });
  drawRoom({ sensors, containers, at, maxGapMinutes: setup.maxGapMinutes });
  drawUnplaced({ sensors, containers, at, place: (sensor) => guide.show('place', { sensor }) });
  guide.update(sensors, containers);
  const waiting = part.waiting();
  document.title = waiting > 0 ? texts.shelfTepidarium(waiting) : texts.shelfTepidarium2;
}

/** No container has a sensor. Who has too many containers to hold them all is not new. */
const isNew = () => !part.isPart() && [...containers.values()].every((one) => one.sensors.length === 0);

function showTrouble(problem) {
  showProblem(byId('loading'), problem);
}
