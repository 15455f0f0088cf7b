// Where each sensor is: the form that places or moves one, and the words for where it is now.

import { api } from '../shared/api.js';
import { h, setOptions, setText } from '../shared/dom.js';
import { field, form } from '../shared/form.js';
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
  return form({
    id: 'place-sensor',
    content: [
      h(
        'div',
        { class: 'fields two' },
        field('Sensor', h('select', { id: 'place-which', name: 'sensor' })),
        field('Goes to', h('select', { id: 'place-where', name: 'container' })),
      ),
      h(
        'details',
        {},
        h('summary', {}, 'It has been there for a while'),
        field(
          'In this place since',
          h('input', { id: 'place-from', name: 'from', type: 'datetime-local' }),
          'Readings from then on count for the new place. Empty: from now on.',
        ),
      ),
    ],
    submit: 'Place the sensor',
    output: h('div', { class: 'output', role: 'status' }),
    save: async (element, output) =>
      placed(await api.place(element.elements.sensor.value, readPlacement(element)), output),
  });
}

function readPlacement(element) {
  const from = element.elements.from.value;
  return { container: element.elements.container.value || null, ...(from && { from: new Date(from).toISOString() }) };
}

/** Updates the choices and keeps the person's selection. */
export function updatePlacement(element, { sensors, containers }) {
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
  setOptions(element.elements.sensor, which);
  setOptions(element.elements.container, where);
  const button = element.querySelector('button[type=submit]');
  if (button.dataset.ready !== String(which.length > 0)) {
    button.dataset.ready = String(which.length > 0);
    button.disabled = which.length === 0;
    setText(button, which.length === 0 ? 'Waiting for a sensor' : 'Place the sensor');
  }
}

export function choose(element, { sensor, container }) {
  if (sensor) element.elements.sensor.value = sensor;
  if (container) element.elements.container.value = container;
}
