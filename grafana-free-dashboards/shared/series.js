// Converts the service's answers to the columns that a chart draws. Pure.
//
// In a column, null is a gap (nothing was heard: the line breaks) and undefined means that this column has no sample
// at this moment while another has (the line goes on). The two must not be confused: a chart that draws through a gap
// shows warmth that nobody measured.

import { nextDay, startOfDay } from './time-format.js';

export const HOUR_MS = 3600_000;

/** [times, mean, min, max] of one quantity; entries that do not go forward in time are left out. */
export function columnsOf(quantity, convert = (value) => value) {
  const columns = [[], [], [], []];
  const { at = [], mean = [], min = [], max = [] } = quantity ?? {};
  for (let i = 0; i < at.length; i++) {
    const time = Date.parse(at[i]);
    if (!(time > (columns[0].at(-1) ?? -Infinity))) continue;
    columns[0].push(time);
    [mean, min, max].forEach((source, k) => columns[k + 1].push(isKnown(source[i]) ? convert(source[i]) : null));
  }
  return columns;
}

export const isKnown = (value) => value !== null && value !== undefined && Number.isFinite(value);

/** Puts two sets of columns on one time line. A gap stays a gap, however many samples of the other set fall into it. */
export function join(left, right) {
  const times = [...new Set([...left[0], ...right[0]])].sort((a, b) => a - b);
  const spread = ([own, ...columns]) => {
    const index = new Map(own.map((time, i) => [time, i]));
    return columns.map((column) =>
      widenGaps(times.map((time) => (index.has(time) ? column[index.get(time)] : undefined))),
    );
  };
  return [times, ...spread(left), ...spread(right)];
}

/** Fills everything between two samples with null if any value between them is null. */
function widenGaps(values) {
  let start = 0;
  for (let i = 0; i <= values.length; i++) {
    if (i < values.length && !isKnown(values[i])) continue;
    if (values.slice(start, i).includes(null)) values.fill(null, start, i);
    start = i + 1;
  }
  return values;
}

/** Samples with a gap on either side, which need a dot to be visible. */
export function lonePoints(values) {
  const lone = [];
  const has = (i) => i >= 0 && i < values.length && isKnown(values[i]);
  for (let i = 0; i < values.length; i++) {
    if (!has(i)) continue;
    let before = i - 1;
    let after = i + 1;
    while (values[before] === undefined && before >= 0) before--;
    while (values[after] === undefined && after < values.length) after++;
    if (!has(before) && !has(after)) lone.push(i);
  }
  return lone;
}

/**
 * Degree-hours so far at the end of each day: [times, sum, sum, upper]. The days are the service's; the last one ends
 * now. `sum` holds what was measured, `upper` what the gaps could have added at most.
 */
export function heatColumns(byDay, zone, { from, to }, convert = (value) => value) {
  const columns = [[], [], [], []];
  let sum = 0;
  let upper = 0;
  const put = (time) => {
    if (!(time > (columns[0].at(-1) ?? -Infinity))) return;
    columns[0].push(time);
    columns[1].push(convert(sum));
    columns[2].push(convert(sum));
    columns[3].push(convert(upper));
  };
  if (byDay.length > 0) put(Math.max(from, startOfDay(byDay[0].day, zone)));
  for (const day of byDay) {
    sum += day.degreeHours;
    upper += day.upper;
    put(Math.min(to, startOfDay(nextDay(day.day), zone)));
  }
  return columns;
}

/** The part of straight lines within a range, cut at its edges, so that the axis fits what is seen. */
export function within(columns, from, to) {
  const times = columns[0];
  const kept = columns.map(() => []);
  const put = (time, values) => {
    kept[0].push(time);
    values.forEach((value, k) => kept[k + 1].push(value));
  };
  const cut = (i, time) =>
    columns
      .slice(1)
      .map(
        (column) => column[i - 1] + ((time - times[i - 1]) / (times[i] - times[i - 1])) * (column[i] - column[i - 1]),
      );
  for (let i = 0; i < times.length; i++) {
    for (const edge of [from, to]) {
      if (i > 0 && times[i - 1] < edge && edge < times[i]) put(edge, cut(i, edge));
    }
    if (times[i] >= from && times[i] <= to)
      put(
        times[i],
        columns.slice(1).map((column) => column[i]),
      );
  }
  return kept;
}
