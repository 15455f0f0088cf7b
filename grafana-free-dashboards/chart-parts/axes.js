// The axes and scales of a chart, in the form that uPlot takes.

import { dateForm } from '../shared/date-form.js';
import { locale } from '../shared/language.js';
import { clockTime, dayKey, startOfDay } from '../shared/time-format.js';
import { pageZone } from '../shared/zone.js';

const DAY_MS = 86_400_000;
const Y_AXIS_WIDTH = 52;

export function scaleOf(spec) {
  const range = (u, min, max) => spec.range(min, max);
  return spec.lightScale ? { distr: 4, asinh: 1, range } : { range };
}

export function timeAxis(spec, colour, font) {
  return {
    stroke: colour('--soft'),
    font,
    size: 30,
    gap: 4,
    space: 64,
    grid: { stroke: colour('--rule'), width: 1 },
    ticks: { stroke: colour('--rule'), size: 4 },
    values: (u, splits, axis, space, step) => splits.map((at) => (spec.formatTime ?? tickText)(at, step)),
  };
}

/** The date at midnight, else hour and minute. */
function tickText(at, step) {
  if (step >= DAY_MS || at === startOfDay(dayKey(at)))
    return dateForm(locale, { day: 'numeric', month: 'short', timeZone: pageZone }).format(at);
  return clockTime(at);
}

const LIGHT_TICKS = [0, 1, 10, 100, 1000, 10_000, 100_000];

export function valueAxis(spec, colour, font) {
  const axis = {
    stroke: colour('--soft'),
    font,
    size: Y_AXIS_WIDTH,
    gap: 4,
    space: 34,
    grid: { stroke: colour('--rule'), width: 1 },
    ticks: { show: false },
    values: (u, splits) => splits.map((value) => spec.formatTick(value)),
  };
  if (!spec.lightScale) return axis;
  return {
    ...axis,
    filter: (u, splits) => splits,
    splits: (u, index, min, max) => LIGHT_TICKS.filter((tick) => tick <= max),
  };
}
