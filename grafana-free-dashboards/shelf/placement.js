// The form that places or moves a sensor.

import { api } from '../shared/api.js';
import { h, setOptions, setText } from '../shared/dom.js';
import { field, form } from '../shared/form.js';
import { now } from '../shared/clock.js';
import { ROOM, nameOf, placeOf, placeWords } from '../shared/sensor-place.js';
import { typedTime } from '../shared/time-format.js';
import { texts } from './texts.js';

const NOWHERE = '';

export function placementForm({ placed }) {
  return form({
    id: 'place-sensor',
    content: [
      h(
        'div',
        { class: 'fields two' },
        field(texts.sensor, h('select', { id: 'place-which', name: 'sensor' })),
        field(texts.goesTo, h('select', { id: 'place-where', name: 'container' })),
      ),
      h(
        'details',
        {},
        h('summary', {}, texts.itHasBeenThereFor),
        field(
          texts.inThisPlaceSince,
          h('input', { id: 'place-from', name: 'from', type: 'datetime-local' }),
          texts.readingsFromThenOnCount,
        ),
      ),
    ],
    submit: texts.placeTheSensor,
    output: h('div', { class: 'output', role: 'status' }),
    save: async (element, output) => {
      const which = element.elements.sensor.value;
      const moved = await api.moveSensor(which, readPlacement(element));
      placed(moved.sensor, output);
    },
  });
}

function readPlacement(element) {
  const from = element.elements.from.value;
  return {
    container: element.elements.container.value || null,
    ...(from && { from: new Date(typedTime(from)).toISOString() }),
  };
}

/** Updates the choices and keeps the person's selection. */
export function updatePlacement(element, { sensors, containers }) {
  const at = now();
  const waiting = (sensor) => (placeOf(sensor, at) !== null || sensor.retired ? 1 : 0);
  const which = [...sensors.values()]
    .sort((a, b) => waiting(a) - waiting(b) || nameOf(a).localeCompare(nameOf(b)))
    .map((sensor) => ({
      value: sensor.sensor,
      text: `${nameOf(sensor)} (${placeWords(placeOf(sensor, at), containers)})`,
    }));
  const where = [...containers.values()].map((container) => ({ value: container.id, text: container.name }));
  where.push({ value: ROOM, text: texts.outsideToMeasureTheRoom }, { value: NOWHERE, text: texts.nowhereForNow });
  setOptions(element.elements.sensor, which);
  setOptions(element.elements.container, where);
  const button = element.querySelector('button[type=submit]');
  if (button.dataset.ready !== String(which.length > 0)) {
    button.dataset.ready = String(which.length > 0);
    button.disabled = which.length === 0;
    setText(button, which.length === 0 ? texts.waitingForASensor : texts.placeTheSensor);
  }
}

export function choose(element, { sensor, container }) {
  if (sensor) element.elements.sensor.value = sensor;
  if (container) element.elements.container.value = container;
}
