// Draws the temperature of the containers below the germination curve, on the same axis. It shows the warmth that the
// seeds had before they germinated.

import { lineStyle } from '../chart-parts/colours.js';
import { swatch } from '../chart-parts/key.js';
import { h, svg, table } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { plot, ticksOf } from './plot.js';
import { dayOfHeat, meanWarmth, partsOf, strokes } from './warmth.js';
import { texts } from './texts.js';

const HEIGHT = 170;
const ROWS = 12;

/**
 * @param lines [{name, points}]; leftOut: see warmth-load.js; base: °C
 * @param axis days or heat; x: the axis of the course above; checks: where somebody looked, on this axis
 * @param medianHeat of the fitted curve; null without one
 */
export function warmthFigure({ lines, leftOut, base, axis, x, checks, medianHeat }) {
  const shown = lines.map((line, i) => ({ ...line, style: lineStyle(i), half: halfOf(line, axis, medianHeat) }));
  const words = [...shown.map((line) => lineWords(line)), halfWords(shown, axis, medianHeat), leftOut]
    .filter(Boolean)
    .join(' ');
  return h(
    'div',
    { class: 'warmth' },
    h('h5', {}, texts.warmthTitle(f.unitName())),
    h('p', { class: 'warmth-words' }, words),
    h('figure', { class: 'curve-figure' }, drawn(shown, { base, axis, x, checks, words })),
    h(
      'p',
      { class: 'quiet' },
      shown.map(({ name, style }) => h('span', { class: 'key-entry' }, swatch(style), name)),
      texts.warmthKey(f.temperature(base)),
    ),
    h(
      'details',
      {},
      h('summary', {}, texts.theSameAsATable),
      h('div', { class: 'table-place' }, asTable(shown, axis, x)),
    ),
  );
}

/** Where on the axis half of those that germinate had what they needed, by the fitted curve. */
function halfOf({ points }, axis, medianHeat) {
  if (medianHeat === null) return null;
  const day = dayOfHeat(points, medianHeat);
  return day === null ? null : axis === 'days' ? day : medianHeat;
}

const lineWords = ({ name, points }) => texts.warmthOnAverage(name, f.temperature(meanWarmth(points)));

function halfWords(shown, axis, medianHeat) {
  const reached = shown.filter((line) => line.half !== null);
  if (medianHeat === null || reached.length === 0) return '';
  if (axis === 'heat') return texts.halfAtHeat(f.degreeHours(medianHeat));
  return reached.map(({ name, half }) => texts.halfAtDay(name, f.number(half, 1))).join(' ');
}

function drawn(shown, { base, axis, x, checks, words }) {
  const all = shown.flatMap(({ points }) =>
    strokes(points, axis)
      .flat()
      .map(([, value]) => f.toUnit(value)),
  );
  const [low, high] = [Math.min(f.toUnit(base), ...all) - 1, Math.max(...all) + 1];
  return plot({
    className: 'warmth-curve',
    height: HEIGHT,
    title: texts.warmthTitle(f.unitName()),
    description: words,
    x,
    y: { from: low, to: high, ticks: ticksOf(low, high, 5).map((at) => ({ at, text: f.number(at) })) },
    draw: (place) => [
      svg('line', {
        class: 'limit',
        x1: place.left,
        x2: place.right,
        y1: place.y(f.toUnit(base)),
        y2: place.y(f.toUnit(base)),
      }),
      checks.map((at) =>
        svg('line', { class: 'used', x1: place.x(at), x2: place.x(at), y1: place.top, y2: place.bottom }),
      ),
      shown.map(({ points, style }) =>
        strokes(points, axis).map((line) =>
          svg('polyline', {
            class: `warm-line ${style.color.slice(2)}`,
            'stroke-dasharray': style.dash?.join(' '),
            points: place.points(line.map(([at, value]) => [at, f.toUnit(value)])),
          }),
        ),
      ),
      shown
        .filter((line) => line.half !== null)
        .map(({ half }) =>
          svg('line', { class: 'half', x1: place.x(half), x2: place.x(half), y1: place.top, y2: place.bottom }),
        ),
    ],
  });
}

function asTable(shown, axis, x) {
  const parts = shown.map(({ points }) => partsOf(points, axis, x.to, ROWS));
  const rows = Array.from({ length: ROWS }, (_, i) => i).filter((i) => parts.some((part) => part[i] !== null));
  const at = (i) => (i / ROWS) * x.to;
  return table(
    texts.warmthTitle(f.unitName()),
    [
      {
        title: x.title,
        cell: (i) => f.number(axis === 'days' ? at(i) : f.differenceToUnit(at(i)), axis === 'days' ? 1 : 0),
      },
      ...shown.map(({ name }, k) => ({ title: name, class: 'number', cell: (i) => f.temperature(parts[k][i]) })),
    ],
    rows,
  );
}
