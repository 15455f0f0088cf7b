// Sensors that send values but are placed nowhere.

import { setAge } from '../shared/ages.js';
import { byId, h, reconcile, setText } from '../shared/dom.js';
import { latestWords } from '../shared/latest-words.js';
import { nameOf, placeOf } from '../shared/sensor-place.js';
import { texts } from './texts.js';

/** @param place called with a sensor that is to be placed */
export function drawUnplaced({ sensors, containers, at, place }) {
  const list = [...sensors.values()].filter((sensor) => placeOf(sensor, at) === null && !sensor.retired);
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
          h('strong', {}, nameOf(sensor)),
          ' ',
          h('span', { class: 'what' }),
          ' ',
          h('time', { class: 'age' }),
        ),
        h(
          'button',
          {
            type: 'button',
            'aria-label': texts.place(nameOf(sensor)),
            on: { click: () => place(sensor.sensor) },
          },
          texts.placeIt,
        ),
      ),
    (item, sensor) => {
      setText(item.querySelector('.what'), latestWords(sensor));
      setAge(item.querySelector('time'), sensor.lastHeard);
    },
  );
}
