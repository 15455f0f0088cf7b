// The likelihood of each base temperature, as a drawing and a table.

import { h, svg, table } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { DROP_95, profileLines } from './course.js';
import { degrees } from './heat-words.js';
import { plot, ticksOf } from './plot.js';

export function likelihood({ base, baseByLikelihood: { identified, base: best, interval, profile } }) {
  const shape = profileLines(profile);
  if (!shape) return [];
  const bases = profile.map((one) => one.base);
  const [from, to] = [Math.min(...bases), Math.max(...bases)];
  const [low, high] = interval ?? [null, null];
  const description = identified
    ? `Highest at ${degrees(best)}; those above the line fit the counts too.`
    : 'The curve is too flat or too one-sided to give a base temperature.';
  return [
    h(
      'figure',
      { class: 'curve-figure' },
      plot({
        title: 'How well each base temperature fits the counts',
        description,
        x: {
          from,
          to,
          title: `base temperature, ${f.unitName()}`,
          ticks: ticksOf(f.toUnit(from), f.toUnit(to), 6).map((shown) => ({
            at: f.fromUnit(shown),
            text: f.number(shown, Number.isInteger(shown) ? 0 : 1),
          })),
        },
        y: {
          from: shape.lowest,
          to: 0.3,
          ticks: [
            { at: 0, text: 'best' },
            { at: -DROP_95, text: '95 %' },
          ],
        },
        draw: (place) => [
          identified &&
            svg('rect', {
              class: 'between',
              x: place.x(low ?? from),
              y: place.top,
              width: place.x(high ?? to) - place.x(low ?? from),
              height: place.bottom - place.top,
            }),
          svg('line', {
            class: 'limit',
            x1: place.left,
            x2: place.right,
            y1: place.y(-DROP_95),
            y2: place.y(-DROP_95),
          }),
          svg('line', { class: 'used', x1: place.x(base), x2: place.x(base), y1: place.top, y2: place.bottom }),
          shape.lines.map((line) => svg('polyline', { class: 'least', points: place.points(line) })),
          identified && svg('circle', { class: 'peak', cx: place.x(best), cy: place.y(0), r: 4 }),
        ],
      }),
    ),
    h(
      'p',
      { class: 'quiet' },
      `The higher, the better that base fits all counts. What lies above the dashed line is not ruled out (95 %). Dotted: the base in use, ${degrees(base)}. ${identified ? '' : description}`,
    ),
    h(
      'details',
      {},
      h('summary', {}, 'The same as a table'),
      h(
        'div',
        { class: 'table-place' },
        table(
          'Likelihood of each base temperature',
          [
            { title: 'Base', cell: (one) => degrees(one.base) },
            {
              title: 'Log-likelihood',
              class: 'number',
              cell: (one) => (one.logLikelihood === null ? 'impossible' : f.number(one.logLikelihood, 2)),
            },
          ],
          profile,
        ),
      ),
    ),
  ];
}
