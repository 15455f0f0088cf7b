// The past day as one thin line; gaps stay blank.

import { svg } from './dom.js';

const WIDTH = 300;
const HEIGHT = 40;

/** Path data for values at their times; a null starts a new stroke, a lone point becomes a dot. */
export function sparkPath(times, values, xOf, yOf) {
  let path = '';
  let run = 0;
  for (let i = 0; i < times.length; i++) {
    if (values[i] === null || values[i] === undefined) {
      if (run === 1) path += 'h0.01';
      run = 0;
      continue;
    }
    path += `${run === 0 ? 'M' : 'L'}${xOf(times[i]).toFixed(1)} ${yOf(values[i]).toFixed(1)}`;
    run++;
  }
  return run === 1 ? `${path}h0.01` : path;
}

export function extremes(series) {
  const mins = (series?.min ?? []).filter((value) => value !== null);
  const maxs = (series?.max ?? []).filter((value) => value !== null);
  return mins.length === 0 ? null : { min: Math.min(...mins), max: Math.max(...maxs) };
}

export function spark({ series, from, to, low, high, label }) {
  const range = extremes(series);
  const bottom = Math.min(low, range?.min ?? low) - 0.5;
  const top = Math.max(high, range?.max ?? high) + 0.5;
  const xOf = (at) => ((Date.parse(at) - from) / (to - from)) * WIDTH;
  const yOf = (value) => HEIGHT - ((value - bottom) / (top - bottom)) * HEIGHT;
  return svg(
    'svg',
    {
      class: 'spark',
      viewBox: `0 0 ${WIDTH} ${HEIGHT}`,
      preserveAspectRatio: 'none',
      role: 'img',
      'aria-label': label,
    },
    svg('rect', { class: 'zone', x: 0, y: yOf(high), width: WIDTH, height: yOf(low) - yOf(high) }),
    range && svg('path', { class: 'line', d: sparkPath(series.at, series.mean, xOf, yOf) }),
  );
}
