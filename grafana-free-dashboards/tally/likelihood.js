// The likelihood of each base temperature, as a drawing and a table.

import { h, svg, table } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { DROP_95, profileLines } from './course.js';
import { degrees } from './heat-words.js';
import { plot, ticksOf } from './plot.js';
import { texts } from './texts.js';

export function likelihood({ base, baseByLikelihood: { identified, base: best, interval, profile } }) {
  const shape = profileLines(profile);
  if (!shape) return [];
  const bases = profile.map((one) => one.base);
  const [from, to] = [Math.min(...bases), Math.max(...bases)];
  const [low, high] = interval ?? [null, null];
  const description = identified ? texts.highestAtThoseAboveThe(degrees(best)) : texts.theCurveIsTooFlat;
  return [
    h(
      'figure',
      { class: 'curve-figure' },
      plot({
        title: texts.howWellEachBaseTemperature,
        description,
        x: {
          from,
          to,
          title: texts.baseTemperature(f.unitName()),
          ticks: ticksOf(f.toUnit(from), f.toUnit(to), 6).map((shown) => ({
            at: f.fromUnit(shown),
            text: f.number(shown, Number.isInteger(shown) ? 0 : 1),
          })),
        },
        y: {
          from: shape.lowest,
          to: 0.3,
          ticks: [
            { at: 0, text: texts.best },
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
    h('p', { class: 'quiet' }, texts.theHigherTheBetterThat(degrees(base), identified ? '' : description)),
    h(
      'details',
      {},
      h('summary', {}, texts.theSameAsATable),
      h(
        'div',
        { class: 'table-place' },
        table(
          texts.likelihoodOfEachBaseTemperature,
          [
            { title: texts.base, cell: (one) => degrees(one.base) },
            {
              title: texts.logLikelihood,
              class: 'number',
              cell: (one) => (one.logLikelihood === null ? texts.impossible : f.number(one.logLikelihood, 2)),
            },
          ],
          profile,
        ),
      ),
    ),
  ];
}
