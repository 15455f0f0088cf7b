// The trial of a place in words and rows. Pure.

import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';
import { degrees, difference, figure, known, points } from './words.js';
import { texts } from './texts.js';

/** The figures of a trial as rows of name and value. */
export function trialRows(trial) {
  const rows = [
    [texts.measuredTogether, t.hours(trial.coveredHours)],
    [texts.meanInside, f.temperature(trial.meanTemperature)],
    [texts.room, known(trial.roomMin) ? texts.to(degrees(trial.roomMin), degrees(trial.roomMax)) : f.UNKNOWN],
  ];
  const add = (title, interval, say) => {
    if (!interval) return;
    const shown = figure(interval, say);
    rows.push([title, shown.interval ? `${shown.main} (${shown.interval})` : shown.main]);
  };
  const hoursOf = (value) => `${f.number(value, 1)} h`;
  add(texts.timeConstant, trial.timeConstantHours, hoursOf);
  add(trial.cycles ? texts.riseAboveTheRoomHeater : texts.riseAboveTheRoom, trial.rise, difference);
  if (trial.low) {
    const limit = degrees(trial.low.limit);
    add(texts.fallsBelowInARoom(limit), trial.low.roomBelow, degrees);
    add(texts.afterInARoomColder(difference(trial.low.colderBy)), trial.low.hoursToFall, hoursOf);
    add(texts.afterIfTheHeatFails, trial.low.hoursWithoutHeat, hoursOf);
  }
  if (trial.cycles) {
    rows.push([texts.heaterSwitchesOnAndOff, texts.and(degrees(trial.cycles.onBelow), degrees(trial.cycles.offAbove))]);
    add(texts.heaterIsOn, trial.cycles.duty, points);
  }
  if (trial.energy) rows.push([texts.energyADay, energy(trial.energy)]);
  return rows;
}

function energy({ kilowattHoursPerDay, low, high, atMost }) {
  const kwh = (value) => texts.kwh(f.number(value, 2));
  return atMost
    ? texts.atMostOnAllDay(kwh(kilowattHoursPerDay))
    : texts.to2(kwh(kilowattHoursPerDay), kwh(low), kwh(high));
}

/** The typed watts: null if empty, undefined if not a number. */
export function wattsOf(text) {
  const typed = text.trim().replace(',', '.');
  if (typed === '') return null;
  const watts = Number(typed);
  return Number.isFinite(watts) && watts >= 0 ? watts : undefined;
}
