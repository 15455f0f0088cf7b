// What the service has heard from sensors so far, and what it could not read; a part of the guide.

import { setAge } from '../shared/ages.js';
import { now } from '../shared/clock.js';
import { byId, h, reconcile, setText } from '../shared/dom.js';
import { latestWords } from '../shared/latest-words.js';
import { remedyFor } from '../shared/remedies.js';
import { nameOf, placeOf, placeWords } from '../shared/sensor-place.js';
import { texts } from './texts.js';

export function heardPart() {
  return h(
    'div',
    { class: 'heard' },
    h('h4', {}, texts.heardSoFar),
    h('p', { id: 'heard-nothing', class: 'waiting' }, texts.nothingYetThisListFills),
    h('ul', { id: 'heard', class: 'rows', 'aria-live': 'polite' }),
    h(
      'div',
      { id: 'not-read-part', hidden: true },
      h('h4', {}, texts.cameButCouldNotBe),
      h('ul', { id: 'not-read', class: 'rows' }),
      h('p', {}, h('a', { href: '/rejects.html' }, texts.allThatCouldNotBe)),
    ),
  );
}

function makeHeard(sensor) {
  return h(
    'li',
    { data: { sensor: sensor.sensor } },
    h('strong', {}, nameOf(sensor)),
    ' ',
    h('span', { class: 'what' }),
    ' ',
    h('time', { class: 'age' }),
    ' ',
    h('span', { class: 'where quiet' }),
  );
}

function updateHeardItem(item, sensor, containers, at) {
  setText(item.querySelector('.what'), latestWords(sensor));
  setAge(item.querySelector('time'), sensor.lastHeard);
  setText(item.querySelector('.where'), placeWords(placeOf(sensor, at), containers));
}

/** The newest reject of each topic and reason, at most 5. */
function newestByTopic(list) {
  const seen = new Map();
  for (const reject of list)
    if (!seen.has(reject.topic + reject.reason)) seen.set(reject.topic + reject.reason, reject);
  return [...seen.values()].slice(0, 5);
}

function makeReject(reject) {
  return h(
    'li',
    { class: 'reject' },
    h('code', {}, reject.topic),
    ' ',
    h('time', { class: 'age' }),
    h('p', {}, reject.reason),
    h('p', { class: 'quiet' }, remedyFor(reject)),
  );
}

/** @param rejects the newest messages that could not be read */
export function updateHeard({ sensors, containers }, rejects) {
  const at = now();
  const heard = [...sensors.values()]
    .filter((sensor) => sensor.lastHeard || sensor.uncertain)
    .sort((a, b) => Date.parse(b.lastHeard ?? 0) - Date.parse(a.lastHeard ?? 0));
  reconcile(
    byId('heard'),
    heard,
    (sensor) => sensor.sensor,
    makeHeard,
    (item, sensor) => updateHeardItem(item, sensor, containers, at),
  );
  reconcile(
    byId('not-read'),
    newestByTopic(rejects),
    (reject) => reject.topic + reject.reason,
    makeReject,
    (item, reject) => setAge(item.querySelector('time'), reject.at),
  );
  byId('heard-nothing').hidden = heard.length > 0;
  byId('not-read-part').hidden = rejects.length === 0;
}
