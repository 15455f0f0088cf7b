// The heat a day of each compared place, as a bar with its 95 % interval.

import { h, svg } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { figure, known, heat } from './words.js';
import { texts } from './texts.js';

/** Where values lie on the common axis, as shares of its width. A tenth is free on either side. */
export function barPositions(compared) {
  const gains = compared.map((one) => one.measures.degreeHoursPerDay).filter((gain) => gain && known(gain.value));
  const ends = gains.flatMap(({ value, low, high }) => [value, low, high].filter(known));
  const [least, most] = [Math.min(...ends), Math.max(...ends)];
  const width = (most - least || 1) * 1.25;
  const at = (value) => (known(value) ? (value - least) / width + 0.1 : null);
  return compared.map(({ measures: { degreeHoursPerDay: gain } }) =>
    gain && known(gain.value) ? { value: at(gain.value), low: at(gain.low), high: at(gain.high) } : null,
  );
}

export function drawHeatBars(answer) {
  const positions = barPositions(answer.compared);
  return h(
    'ul',
    { class: 'heat-bars', 'aria-label': texts.heatADayWithIts(f.unitName()) },
    answer.compared.map((one, i) => {
      const words = figure(one.measures.degreeHoursPerDay, heat);
      return h(
        'li',
        { data: { bar: one.key } },
        h('span', { class: 'bar-name' }, one.name),
        positions[i] ? bar(positions[i]) : h('span', {}),
        h('span', { class: 'bar-figure' }, words.main),
      );
    }),
  );
}

const percent = (share) => `${(share * 100).toFixed(2)}%`;

/** The line is the interval, the dot the value. Without an interval there is no line. */
const bar = ({ value, low, high }) =>
  svg(
    'svg',
    { class: 'bar', 'aria-hidden': 'true' },
    svg('line', { class: 'bar-axis', x1: '0', x2: '100%', y1: '50%', y2: '50%' }),
    low !== null &&
      high !== null &&
      svg('line', { class: 'bar-interval', x1: percent(low), x2: percent(high), y1: '50%', y2: '50%' }),
    svg('circle', { class: 'bar-value', cx: percent(value), cy: '50%', r: '5' }),
  );
