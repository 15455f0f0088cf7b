// The parameters of an export of readings. Pure.

import { nextDay, startOfDay } from '../shared/time-format.js';
import { texts } from './texts.js';

/** What can be exported: everything, the readings of one container, of the room, or of one sensor. */
export function exportChoices(containers, sensors) {
  return [
    { value: '', text: texts.allSensors },
    ...containers.map(({ id, name }) => ({ value: `container=${id}`, text: texts.container(name) })),
    { value: 'container=room', text: texts.room },
    ...sensors.map((sensor) => ({ value: `sensor=${sensor.sensor}`, text: texts.sensor(sensor.sensor) })),
  ];
}

/**
 * The query of an export.
 * @param choice `what` (a value of exportChoices), `from` and `to` (days, both included), `format`, `values`
 * @param zone of the days
 * @throws Error if the last day is before the first
 */
export function exportQuery({ what, from, to, format, calibrated }, zone = undefined) {
  if (from && to && to < from) throw new Error(texts.theLastDayIsBefore);
  const query = new URLSearchParams(what);
  query.set('format', format);
  if (from) query.set('from', new Date(startOfDay(from, zone)).toISOString());
  if (to) query.set('to', new Date(startOfDay(nextDay(to), zone)).toISOString());
  if (calibrated === 'true') query.set('calibrated', 'true');
  return query;
}
