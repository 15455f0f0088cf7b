// The trial of a place in words and rows. Pure.

import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';
import { degrees, difference, figure, known, points } from './words.js';

/** The figures of a trial as rows of name and value. */
export function trialRows(trial) {
  const rows = [
    ['Measured together', t.hours(trial.coveredHours)],
    ['Mean inside', f.temperature(trial.meanTemperature)],
    ['Room', known(trial.roomMin) ? `${degrees(trial.roomMin)} to ${degrees(trial.roomMax)}` : f.UNKNOWN],
  ];
  const add = (title, interval, say) => {
    if (!interval) return;
    const shown = figure(interval, say);
    rows.push([title, shown.interval ? `${shown.main} (${shown.interval})` : shown.main]);
  };
  const hoursOf = (value) => `${f.number(value, 1)} h`;
  add('Time constant', trial.timeConstantHours, hoursOf);
  add(trial.cycles ? 'Rise above the room, heater always on' : 'Rise above the room', trial.rise, difference);
  if (trial.low) {
    const limit = degrees(trial.low.limit);
    add(`Falls below ${limit} in a room below`, trial.low.roomBelow, degrees);
    add(`after, in a room ${difference(trial.low.colderBy)} colder still`, trial.low.hoursToFall, hoursOf);
    add('after, if the heat fails', trial.low.hoursWithoutHeat, hoursOf);
  }
  if (trial.cycles) {
    rows.push([
      'Heater switches on and off at',
      `${degrees(trial.cycles.onBelow)} and ${degrees(trial.cycles.offAbove)}`,
    ]);
    add('Heater is on', trial.cycles.duty, points);
  }
  if (trial.energy) rows.push(['Energy a day', energy(trial.energy)]);
  return rows;
}

function energy({ kilowattHoursPerDay, low, high, atMost }) {
  const kwh = (value) => `${f.number(value, 2)} kWh`;
  return atMost
    ? `at most ${kwh(kilowattHoursPerDay)}: on all day`
    : `${kwh(kilowattHoursPerDay)} (${kwh(low)} to ${kwh(high)})`;
}

/** The typed watts: null if empty, undefined if not a number. */
export function wattsOf(text) {
  const typed = text.trim().replace(',', '.');
  if (typed === '') return null;
  const watts = Number(typed);
  return Number.isFinite(watts) && watts >= 0 ? watts : undefined;
}
