// The temperature of the room, from the newest sensor that is placed outside all containers.

import { setAge } from '../shared/ages.js';
import { byId, h } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { placeOf } from '../shared/sensor-place.js';
import { texts } from './texts.js';

/** @param maxGapMinutes a value older than this is shown as the last one, not as the present one */
export function drawRoom({ sensors, containers, at, maxGapMinutes }) {
  const outside = [...sensors.values()].filter(
    (sensor) => placeOf(sensor, at) === 'room' && sensor.latest?.temperature,
  );
  const newest = outside.sort((a, b) => Date.parse(b.latest.temperature.at) - Date.parse(a.latest.temperature.at))[0];
  const room = byId('room');
  room.hidden = containers.size === 0;
  const latest = newest?.latest.temperature;
  const key = latest ? `${latest.at}${f.temperatureUnit()}` : 'none';
  if (room.dataset.drawn === key) return;
  room.dataset.drawn = key;
  if (!latest) {
    room.replaceChildren(texts.room, h('span', { class: 'quiet' }, texts.noSensorIsPlacedOutside));
    return;
  }
  const time = h('time', { class: 'age' });
  setAge(time, latest.at);
  const old = at - Date.parse(latest.at) > maxGapMinutes * 60_000;
  room.replaceChildren(
    old ? texts.roomLast : texts.room2,
    h('strong', {}, f.temperature(newest.corrected.temperature)),
    ' ',
    time,
  );
}
