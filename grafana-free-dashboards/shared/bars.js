// Bars on a common axis, as drawings without text: an interval with its value, or a length from zero.

import { known } from './format.js';
import { svg } from './dom.js';

const percent = (share) => `${(share * 100).toFixed(2)}%`;
const line = (className, from, to) =>
  svg('line', { class: className, x1: percent(from), x2: percent(to), y1: '50%', y2: '50%' });

/** The line is the interval, the dot the value; places are shares of the width. Without an interval there is no line. */
export const intervalBar = ({ value, low, high, zero = null }) =>
  svg(
    'svg',
    { class: 'bar', 'aria-hidden': 'true' },
    line('bar-axis', 0, 1),
    zero !== null && svg('line', { class: 'bar-zero', x1: percent(zero), x2: percent(zero), y1: '0', y2: '100%' }),
    known(low) && known(high) && line('bar-interval', low, high),
    svg('circle', { class: 'bar-value', cx: percent(value), cy: '50%', r: '5' }),
  );

/** @param value share of the width, from 0 to 1 */
export const lengthBar = (value) =>
  svg(
    'svg',
    { class: 'bar', 'aria-hidden': 'true' },
    line('bar-axis', 0, 1),
    svg('rect', { class: 'bar-length', x: '0', width: percent(value), y: '20%', height: '60%' }),
  );

/** Places of intervals on the common axis. A tenth is free on either side. @param and a value that must be on it */
export function placesOf(intervals, and = []) {
  const ends = intervals
    .flatMap((one) => (one ? [one.value, one.low, one.high] : []))
    .concat(and)
    .filter(known);
  const [least, most] = [Math.min(...ends), Math.max(...ends)];
  const width = (most - least || 1) * 1.25;
  const at = (value) => (known(value) ? (value - least) / width + 0.1 : null);
  const places = intervals.map((one) =>
    one && known(one.value) ? { value: at(one.value), low: at(one.low), high: at(one.high) } : null,
  );
  return { places, at };
}
