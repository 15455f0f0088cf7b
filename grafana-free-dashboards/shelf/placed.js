// Says where a sensor was placed, and offers to count its readings from the first one.

import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';
import { actionButton, announce, h, setText } from '../shared/dom.js';
import { placeOf, placeWords } from '../shared/sensor-place.js';
import { stamp } from '../shared/time-format.js';
import { texts } from './texts.js';

export function showPlaced(sensor, containers, output) {
  const words = texts.isNow(sensor.sensor, placeWords(placeOf(sensor, now()), containers));
  const note = h('p', { class: 'done' }, words, texts.itsValuesAppearOnThe);
  output.replaceChildren(note, countFromFirst(sensor, note) ?? '');
  announce(words);
}

/** Readings from before the placement do not count, unless the grower says that the sensor lay there already. */
function countFromFirst(sensor, note) {
  const container = placeOf(sensor, now());
  const first = sensor.firstHeard;
  if (container === null || !first || sensor.placements.length > 1) return null;
  if (Date.parse(first) >= Date.parse(sensor.placements[0].from)) return null;
  const problem = h('div');
  const button = actionButton(
    { class: 'from-first' },
    texts.countFromFirstReading(stamp(first, now())),
    problem,
    async () => {
      await api.placeSensor(sensor.sensor, { container, from: first });
      setText(note, texts.countsFrom(sensor.sensor, stamp(first, now())));
      button.remove();
    },
  );
  return h('div', { class: 'actions' }, button, problem);
}
