// The Shelf: all containers at a glance, and what needs a person on top.

import { api } from '../shared/api.js';
import { byId, h, reconcile, setAge, setText, problemBox } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { now } from '../shared/clock.js';
import { announceChange, showAlerts } from '../shared/attention.js';
import { makeCard, updateCard } from '../shared/card.js';
import { makeGuide } from './guide.js';
import { latestWords } from '../shared/latest-words.js';
import { placeOf } from './placement.js';
import { isLive, startPage, untilItWorks } from '../shared/page.js';
import { isOpen, standing } from '../shared/words.js';

const DAY_MS = 24 * 3600_000;
const DAY_POINTS = 96;
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
  connectButtons();
  loadDays();
  // Also finds what no event tells: containers taken off the shelf from another device.
  setInterval(
    () =>
      load()
        .then(loadDays)
        .catch(() => {}),
    DAYS_EVERY_MS,
  );
  // Freshness fades with time alone, also when no event comes.
  setInterval(draw, LOOK_AGAIN_MS);
}

async function load() {
  const [allContainers, allSensors, open, shelved] = await Promise.all([
    api.containers(),
    api.sensors(),
    api.alerts('open'),
    api.alerts('shelved'),
  ]);
  replace(containers, allContainers, (one) => one.id);
  replace(sensors, allSensors, (one) => one.sensor);
  replace(alerts, [...open, ...shelved], (one) => one.id);
  draw();
}

function replace(map, list, keyOf) {
  map.clear();
  for (const one of list) map.set(keyOf(one), one);
}

function takeContainer(container) {
  const isNew = !containers.has(container.id);
  containers.set(container.id, container);
  if (isNew) loadDay(container);
  soon();
}

function takeAlert(alert) {
  announceChange(alerts.get(alert.id), alert);
  if (isOpen(alert)) alerts.set(alert.id, alert);
  else alerts.delete(alert.id);
  soon();
}

/** Many events in one breath make one drawing. A timer, since a page in the background gets no animation frames. */
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
  drawAttention(list);
  drawRoom(at);
  drawUnplaced(at);
  guide.update(sensors, containers);
  const waiting = list.filter((one) => ['act', 'silent'].includes(standing(one, at, setup.maxGapMinutes).level)).length;
  document.title = waiting > 0 ? `(${waiting}) Shelf · Tepidarium` : 'Shelf · Tepidarium';
}

function drawAttention(list) {
  const shown = showAlerts({
    list: byId('attention'),
    shelvedPart: byId('shelved-part'),
    alerts: [...alerts.values()],
    containers,
    changed: takeAlert,
  });
  byId('attention-part').hidden = list.length === 0;
  const nothing = byId('attention').children.length === 0;
  byId('attention-part').classList.toggle('calm', nothing && isLive());
  setText(
    byId('attention-title'),
    !nothing
      ? 'Needs attention'
      : !isLive()
        ? 'No alerts when last heard'
        : shown > 0
          ? 'No alert but the shelved ones'
          : 'No alerts',
  );
}

function drawRoom(at) {
  const outside = [...sensors.values()].filter(
    (sensor) => placeOf(sensor, at) === 'room' && sensor.latest?.temperature,
  );
  const newest = outside.sort((a, b) => Date.parse(b.latest.temperature.at) - Date.parse(a.latest.temperature.at))[0];
  const room = byId('room');
  room.hidden = containers.size === 0;
  const latest = newest?.latest.temperature;
  const key = latest ? `${latest.at}${f.temperatureUnit()}` : 'none';
  if (room.dataset.drawn === key) return;
  room.dataset.drawn = key;
  if (!latest) {
    room.replaceChildren('Room: – ', h('span', { class: 'quiet' }, '(no sensor is placed outside)'));
    return;
  }
  const time = h('time', { class: 'age' });
  setAge(time, latest.at);
  const old = at - Date.parse(latest.at) > setup.maxGapMinutes * 60_000;
  room.replaceChildren(
    old ? 'Room: –, last ' : 'Room: ',
    h('strong', {}, f.temperature(latest.value + (newest.calibration?.temperatureOffset ?? 0))),
    ' ',
    time,
  );
}

function drawUnplaced(at) {
  const list = [...sensors.values()].filter((sensor) => placeOf(sensor, at) === null);
  byId('unplaced-part').hidden = list.length === 0 || containers.size === 0;
  reconcile(
    byId('unplaced'),
    list,
    (sensor) => sensor.sensor,
    (sensor) =>
      h(
        'li',
        { class: 'with-button' },
        h(
          'span',
          {},
          h('strong', {}, sensor.sensor),
          ' ',
          h('span', { class: 'what' }),
          ' ',
          h('time', { class: 'age' }),
        ),
        h(
          'button',
          {
            type: 'button',
            'aria-label': `Place ${sensor.sensor}`,
            on: { click: () => guide.show('place', { sensor: sensor.sensor }) },
          },
          'Place it',
        ),
      ),
    (item, sensor) => {
      setText(item.querySelector('.what'), latestWords(sensor));
      setAge(item.querySelector('time'), sensor.lastHeard);
    },
  );
}

const anyPlaced = () => [...sensors.values()].some((sensor) => containers.has(placeOf(sensor, now())));

function connectButtons() {
  for (const button of byId('shelf-actions').querySelectorAll('button')) {
    button.addEventListener('click', () => guide.show(button.dataset.step));
  }
  const wanted = new URLSearchParams(location.search).get('place');
  if (wanted) guide.show('place', { container: wanted });
}

/** One after the other: forty sparklines should not hold up the first live event. */
async function loadDays() {
  for (const container of [...containers.values()]) await loadDay(container);
}

async function loadDay(container) {
  const to = now();
  const from = to - DAY_MS;
  try {
    const { temperature } = await api.readings(container.id, { from, to, points: DAY_POINTS });
    days.set(container.id, { series: temperature, from, to });
    soon();
  } catch {
    /* the card simply has no line; the notice on top tells when the service is away */
  }
}

function showTrouble(problem) {
  const place = byId('loading');
  if (place) place.replaceChildren(problemBox(problem), problem.unreachable ? 'Trying again by itself.' : '');
}
