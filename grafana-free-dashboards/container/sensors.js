// The sensors inside a container, each with a link to its sheet.

import { byId, h, reconcile, setText } from '../shared/dom.js';
import { setAge } from '../shared/ages.js';
import { latestWords } from '../shared/latest-words.js';
import { nameOf, sheetOf } from '../shared/sensor-place.js';
import { texts } from './texts.js';

export function showSensors(container, sensors) {
  const place = byId('sensors-part').lastElementChild;
  const inside = container.sensors.map((name) => sensors.get(name) ?? { sensor: name, latest: {} });
  if (!place.firstChild) {
    place.append(
      h('p', { id: 'no-sensor' }),
      h('ul', { class: 'rows' }),
      h('p', { class: 'help' }, texts.theSheetOfASensor),
      h(
        'p',
        {},
        h('a', { class: 'button', href: `/?place=${encodeURIComponent(container.id)}` }, texts.placeOrMoveASensor),
      ),
    );
  }
  setText(byId('no-sensor'), inside.length === 0 ? texts.noneUntilOneIsPlaced : '');
  reconcile(place.querySelector('ul'), inside, (sensor) => sensor.sensor, makeSensor, updateSensor);
}

function makeSensor(sensor) {
  return h(
    'li',
    {},
    h('a', { class: 'sheet-link', href: sheetOf(sensor) }),
    ' ',
    h('span', { class: 'what' }),
    ' ',
    h('time', { class: 'age' }),
  );
}

function updateSensor(item, sensor) {
  setText(item.querySelector('a'), nameOf(sensor));
  setText(item.querySelector('.what'), latestWords(sensor));
  setAge(item.querySelector('time'), sensor.lastHeard, texts.heard3);
}
