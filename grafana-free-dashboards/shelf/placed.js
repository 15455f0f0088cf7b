// Says where a sensor was placed, and offers to count its readings from the first one.

import { now } from '../shared/clock.js';
import { announce, h, setText } from '../shared/dom.js';
import { countFromFirst } from '../shared/first-reading.js';
import { placeOf, placeWords } from '../shared/sensor-place.js';
import { texts } from './texts.js';

export function showPlaced(sensor, containers, output) {
  const words = texts.isNow(sensor.sensor, placeWords(placeOf(sensor, now()), containers));
  const note = h('p', { class: 'done' }, words, texts.itsValuesAppearOnThe);
  const problem = h('div');
  const button = countFromFirst(sensor, problem, async (done, change) => {
    await change();
    setText(note, done);
    button.remove();
  });
  output.replaceChildren(note, button ? h('div', { class: 'actions' }, button, problem) : '');
  announce(words);
}
