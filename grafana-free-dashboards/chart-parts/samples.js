// The samples of a container for each chart, from the answers of the service. Pure.

import * as f from '../shared/format.js';
import { RARE } from '../shared/quantities.js';
import { columnsOf, heatColumns, within } from '../shared/series.js';

/**
 * [times, mean, min, max] for each chart, by its name.
 * @param answers readings and heat; @param zone the service's, for its days
 */
export function samplesOf({ readings, heat }, range, zone) {
  const span = heat ? { from: Date.parse(heat.from), to: Date.parse(heat.to) } : range;
  return {
    temperature: columnsOf(readings.temperature, f.toUnit),
    humidity: columnsOf(readings.humidity),
    light: columnsOf(readings.light),
    ...Object.fromEntries(RARE.map(({ key }) => [key, columnsOf(readings[key])])),
    heat: within(
      heatColumns(heat?.coveredHours > 0 ? heat.byDay : [], zone, span, f.differenceToUnit),
      range.from,
      range.to,
    ),
  };
}

/**
 * One line for each set on one time line: null is a gap, undefined is no sample at this time. Where a set has a gap,
 * all times up to its next sample are in the gap.
 * @param step ms; samples are drawn at whole steps, so that the lines share their times and a chart of many lines is
 *   drawn at once. At most half a step, which is about two pixels, is lost; samples closer together keep their time.
 */
export function oneTimeLine(sets, step = 1) {
  const own = sets.map(({ columns }) => atSteps(columns[0], step));
  const times = Float64Array.from(new Set(own.flat())).sort();
  const lines = sets.map(({ columns: [, mean] }, k) => {
    const line = new Array(times.length).fill(undefined);
    let next = 0;
    let gap = false;
    for (let i = 0; i < times.length; i++) {
      if (next < own[k].length && own[k][next] === times[i]) {
        gap = mean[next] === null;
        line[i] = mean[next++];
      } else if (gap) {
        line[i] = null;
      }
    }
    return line;
  });
  return [Array.from(times), ...lines];
}

/** Ascending times, each at a whole step where that stays between its neighbours. */
function atSteps(times, step) {
  let before = -Infinity;
  return times.map((time, i) => {
    const snapped = Math.round(time / step) * step;
    before = snapped > before && !(snapped >= times[i + 1]) ? snapped : time;
    return before;
  });
}
