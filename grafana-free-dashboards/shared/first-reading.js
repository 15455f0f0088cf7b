// Offers to count a sensor's readings from the first one: those from before its placement do not count, unless the
// grower says that the sensor lay there already.

import { api } from './api.js';
import { now } from './clock.js';
import { actionButton } from './dom.js';
import { nameOf, placeOf } from './sensor-place.js';
import { stamp } from './time-format.js';
import { texts } from './texts.js';

/** The first reading, where the only placement of a sensor begins after it; else null. */
export function earlierReading(sensor) {
  const { firstHeard, placements } = sensor;
  if (!firstHeard || placements.length !== 1 || placeOf(sensor, now()) === null) return null;
  return Date.parse(firstHeard) < Date.parse(placements[0].from) ? firstHeard : null;
}

/**
 * A button; null where nothing is to be offered.
 * @param output shows what went wrong
 * @param work called with the sentence to show after the change, and with a function that makes the change
 */
export function countFromFirst(sensor, output, work) {
  const first = earlierReading(sensor);
  if (first === null) return null;
  const at = stamp(first, now());
  const change = () => api.correctPlacements(sensor.sensor, [{ ...sensor.placements[0], from: first }]);
  return actionButton({ class: 'from-first' }, texts.countFromFirstReading(at), output, () =>
    work(texts.countsFrom(nameOf(sensor), at), change),
  );
}
