// Where each sensor is: the form that places or moves one, and the words for where it is now.

import { api } from '../shared/api.js';
import { h, setOptions, setText, whileBusy } from '../shared/dom.js';
import { now } from '../shared/clock.js';

const ROOM = 'room';
const NOWHERE = '';

/** The container (or 'room') that a sensor is in at this moment, or null. */
export function placeOf(sensor, at) {
  const current = (sensor.placements ?? []).find(
    (placement) =>
      Date.parse(placement.from) <= at &&
      (placement.until === null || placement.until === undefined || Date.parse(placement.until) > at),
  );
  return current?.container ?? null;
}

export function placeWords(place, containers) {
  if (place === null) return 'without a place';
  return place === ROOM ? 'outside, in the room' : `in ${containers.get(place)?.name ?? place}`;
}

export function placementForm({ placed }) {
  const output = h('div', { class: 'output', role: 'status' });
  const button = h('button', { type: 'submit', class: 'main' }, 'Place the sensor');
  const form = h(
    'form',
    {
      id: 'place-sensor',
      class: 'form',
      on: {
        submit: (event) => {
          event.preventDefault();
          whileBusy(button, output, async () =>
            placed(await api.place(form.elements.sensor.value, readPlacement(form)), output),
          );
        },
      },
    },
    h(
      'div',
      { class: 'fields two' },
      h(
        'div',
        { class: 'field' },
        h('label', { for: 'place-which' }, 'Sensor'),
        h('select', { id: 'place-which', name: 'sensor', required: true }),
      ),
      h(
        'div',
        { class: 'field' },
        h('label', { for: 'place-where' }, 'Goes to'),
        h('select', { id: 'place-where', name: 'container' }),
      ),
    ),
    h(
      'details',
      {},
      h('summary', {}, 'It has been there for a while'),
      h(
        'div',
        { class: 'field' },
        h('label', { for: 'place-from' }, 'In this place since'),
        h('input', { id: 'place-from', name: 'from', type: 'datetime-local', 'aria-describedby': 'place-from-help' }),
        h(
          'p',
          { class: 'help', id: 'place-from-help' },
          'Readings from then on count for the new place. Empty: from now on.',
        ),
      ),
    ),
    output,
    h('div', { class: 'actions' }, button),
  );
  return form;
}

function readPlacement(form) {
  const from = form.elements.from.value;
  return { container: form.elements.container.value || null, ...(from && { from: new Date(from).toISOString() }) };
}

/** Updates the choices and keeps the person's selection. */
export function updatePlacement(form, { sensors, containers }) {
  const at = now();
  const waiting = (sensor) => (placeOf(sensor, at) === null ? 0 : 1);
  const which = [...sensors.values()]
    .sort((a, b) => waiting(a) - waiting(b) || a.sensor.localeCompare(b.sensor))
    .map((sensor) => ({
      value: sensor.sensor,
      text: `${sensor.sensor} (${placeWords(placeOf(sensor, at), containers)})`,
    }));
  const where = [...containers.values()].map((container) => ({ value: container.id, text: container.name }));
  where.push({ value: ROOM, text: 'Outside, to measure the room' }, { value: NOWHERE, text: 'Nowhere for now' });
  setOptions(form.elements.sensor, which);
  setOptions(form.elements.container, where);
  const button = form.querySelector('button[type=submit]');
  if (button.dataset.ready !== String(which.length > 0)) {
    button.dataset.ready = String(which.length > 0);
    button.disabled = which.length === 0;
    setText(button, which.length === 0 ? 'Waiting for a sensor' : 'Place the sensor');
  }
}

export function choose(form, { sensor, container }) {
  if (sensor) form.elements.sensor.value = sensor;
  if (container) form.elements.container.value = container;
}
