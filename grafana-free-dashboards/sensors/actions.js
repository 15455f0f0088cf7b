// The forms that place, move, replace and retire a sensor.

import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';
import { h, setOptions, setText } from '../shared/dom.js';
import { field, form, Problems } from '../shared/form.js';
import { withLocalTimes } from '../shared/local-times.js';
import { nameOf, placeOf, placeWords, ROOM } from '../shared/sensor-place.js';
import { localInput, typedInstant } from './change-words.js';
import { makeDetails } from './details.js';

const NOWHERE = '';
const when = (help) => field('Since', h('input', { name: 'from', type: 'datetime-local' }), help);
const typedFrom = (element) => typedInstant(element.elements.from.value);

/** @param result shows the figures before and after a change */
export function makeActions({ key, known, result }) {
  const sensor = () => known.sensors.get(key);
  const name = () => nameOf(sensor());

  const move = form({
    id: 'move',
    content: h(
      'div',
      { class: 'fields' },
      field('Goes to', h('select', { name: 'container' })),
      when('Empty: now. All figures follow, also those of the past.'),
    ),
    submit: 'Place or move',
    other: h(
      'button',
      {
        type: 'button',
        class: 'plain',
        on: {
          click: () => {
            move.elements.from.value = localInput(sensor().firstHeard);
          },
        },
      },
      'Since its first reading',
    ),
    save: async (element) => {
      const where = element.elements.container;
      const container = where.value || null;
      const words =
        container === null ? `${name()} is taken out.` : `${name()} goes to ${where.selectedOptions[0].text}.`;
      await withLocalTimes(() =>
        result.run([key], words, () => api.moveSensor(key, { container, from: typedFrom(element) })),
      );
      element.elements.from.value = '';
    },
  });

  const replace = form({
    id: 'replace',
    plain: true,
    content: h(
      'div',
      { class: 'fields' },
      field('New sensor', h('select', { name: 'by' }), 'It takes over the place. This one is retired.'),
      when('Empty: now. Not before the first reading of the new sensor.'),
    ),
    submit: 'Replace',
    save: async (element) => {
      const by = element.elements.by.value;
      if (!by) throw new Problems(['Choose the new sensor. It must be in no container.']);
      const words = `${nameOf(known.sensors.get(by))} takes the place of ${name()}.`;
      await withLocalTimes(() =>
        result.run([key, by], words, () => api.replaceSensor(key, { by, from: typedFrom(element) })),
      );
    },
  });

  const retire = form({
    id: 'retire',
    plain: true,
    content: h('div', { class: 'fields' }, when('Empty: now. Readings and past placements stay.')),
    submit: 'Retire',
    save: (element) =>
      withLocalTimes(() =>
        result.run([key], `${name()} is retired.`, () => api.retireSensor(key, { from: typedFrom(element) })),
      ),
  });

  const back = form({
    id: 'unretire',
    plain: true,
    content: h('p', {}, 'It is retired. A move to a place uses it again, too.'),
    submit: 'Use again',
    save: async () => {
      known.changed([(await api.unretireSensor(key)).sensor]);
    },
  });

  const describe = makeDetails(key, known);

  const parts = { move, replace, retire, back };
  const section = (title, part) => h('details', { class: 'action' }, h('summary', {}, title), part);
  const first = section('Place or move', move);
  first.open = true;
  const element = h(
    'div',
    {},
    first,
    section('Replace by another', replace),
    section('Retire', h('div', {}, retire, back)),
    section('Name, note, cells', describe.element),
  );
  return {
    element,
    update: () => {
      updateActions(parts, sensor(), known);
      describe.update(sensor());
    },
  };
}

function updateActions({ move, replace, retire, back }, sensor, { sensors, containers }) {
  const at = now();
  const place = placeOf(sensor, at);
  const where = [...containers.values()].map((one) => ({ value: one.id, text: one.name }));
  where.push({ value: ROOM, text: 'Outside, to measure the room' });
  if (place !== null) where.push({ value: NOWHERE, text: 'Nowhere for now' });
  setOptions(
    move.elements.container,
    where.filter((one) => one.value !== place),
  );
  setOptions(replace.elements.by, [
    { value: '', text: 'Choose' },
    ...[...sensors.values()]
      .filter((one) => one.sensor !== sensor.sensor && placeOf(one, at) === null)
      .map((one) => ({ value: one.sensor, text: `${nameOf(one)} (${one.retired ? 'retired' : placeWords(null)})` })),
  ]);
  for (const one of [move, retire]) {
    one.elements.from.min = localInput(sensor.firstHeard);
    one.elements.from.max = localInput(at);
  }
  retire.hidden = Boolean(sensor.retired);
  back.hidden = !sensor.retired;
  setText(move.querySelector('[type=submit]'), place === null ? 'Place' : 'Move');
}
