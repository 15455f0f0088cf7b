// The forms that place, move, replace and retire a sensor.

import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';
import { h, setOptions, setText } from '../shared/dom.js';
import { countFromFirst, earlierReading } from '../shared/first-reading.js';
import { field, form, Problems } from '../shared/form.js';
import { nameOf, placeOf, placeWords, ROOM } from '../shared/sensor-place.js';
import { typedInstant } from './change-words.js';
import { makeDetails } from './details.js';
import { inputOf } from '../shared/time-format.js';
import { texts } from './texts.js';

const NOWHERE = '';
const when = (help) => field(texts.since, h('input', { name: 'from', type: 'datetime-local' }), help);
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
      field(texts.goesTo, h('select', { name: 'container' })),
      when(texts.emptyNowAllFiguresFollow),
    ),
    submit: texts.placeOrMove,
    save: async (element) => {
      const where = element.elements.container;
      const container = where.value || null;
      const words =
        container === null ? texts.isTakenOut(name()) : texts.goesTo2(name(), where.selectedOptions[0].text);
      await result.run([key], words, () => api.moveSensor(key, { container, from: typedFrom(element) }));
      element.elements.from.value = '';
    },
  });

  const replace = form({
    id: 'replace',
    plain: true,
    content: h(
      'div',
      { class: 'fields' },
      field(texts.newSensor, h('select', { name: 'by' }), texts.itTakesOverThePlace),
      when(texts.emptyNowNotBeforeThe),
    ),
    submit: texts.replace,
    save: async (element) => {
      const by = element.elements.by.value;
      if (!by) throw new Problems([texts.chooseTheNewSensorIt]);
      const words = texts.takesThePlaceOf(nameOf(known.sensors.get(by)), name());
      await result.run([key, by], words, () => api.replaceSensor(key, { by, from: typedFrom(element) }));
    },
  });

  const retire = form({
    id: 'retire',
    plain: true,
    content: h('div', { class: 'fields' }, when(texts.emptyNowReadingsAndPast)),
    submit: texts.retire,
    save: (element) =>
      result.run([key], texts.isRetired(name()), () => api.retireSensor(key, { from: typedFrom(element) })),
  });

  const back = form({
    id: 'unretire',
    plain: true,
    content: h('p', {}, texts.itIsRetiredAMove),
    submit: texts.useAgain,
    save: async () => {
      known.changed([(await api.unretireSensor(key)).sensor]);
    },
  });

  const describe = makeDetails(key, known);
  const earlier = h('div', { class: 'actions' });

  /** Drawn anew only for another offer, since live values come each second. */
  function updateEarlier() {
    const offer = earlierReading(sensor()) ?? '';
    if (earlier.dataset.offer === offer) return;
    earlier.dataset.offer = offer;
    const output = h('span');
    const button = countFromFirst(sensor(), output, (done, change) => result.run([key], done, change));
    earlier.replaceChildren(...(button ? [button, output] : []));
  }

  const parts = { move, replace, retire, back };
  const section = (title, part) => h('details', { class: 'action' }, h('summary', {}, title), part);
  const first = section(texts.placeOrMove, h('div', {}, earlier, move));
  first.open = true;
  const element = h(
    'div',
    {},
    first,
    section(texts.replaceByAnother, replace),
    section(texts.retire, h('div', {}, retire, back)),
    section(texts.nameNoteCells, describe.element),
  );
  return {
    element,
    update: () => {
      updateActions(parts, sensor(), known);
      updateEarlier();
      describe.update(sensor());
    },
  };
}

function updateActions({ move, replace, retire, back }, sensor, { sensors, containers }) {
  const at = now();
  const place = placeOf(sensor, at);
  const where = [...containers.values()].map((one) => ({ value: one.id, text: one.name }));
  where.push({ value: ROOM, text: texts.outsideToMeasureTheRoom });
  if (place !== null) where.push({ value: NOWHERE, text: texts.nowhereForNow });
  setOptions(
    move.elements.container,
    where.filter((one) => one.value !== place),
  );
  setOptions(replace.elements.by, [
    { value: '', text: texts.choose },
    ...[...sensors.values()]
      .filter((one) => one.sensor !== sensor.sensor && placeOf(one, at) === null)
      .map((one) => ({
        value: one.sensor,
        text: `${nameOf(one)} (${one.retired ? texts.retired : placeWords(null)})`,
      })),
  ]);
  for (const one of [move, retire]) {
    one.elements.from.min = inputOf(sensor.firstHeard);
    one.elements.from.max = inputOf(at);
  }
  retire.hidden = Boolean(sensor.retired);
  back.hidden = !sensor.retired;
  setText(move.querySelector('[type=submit]'), place === null ? texts.place : texts.move);
}
