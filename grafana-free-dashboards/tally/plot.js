// A small drawing with two axes, as SVG: it grows with its place and takes its colours from the style sheet.

import { svg } from '../shared/dom.js';

const WIDTH = 360;
const USUAL_HEIGHT = 230;
const LEFT = 46;
const RIGHT = 10;
const TOP = 12;
const BOTTOM = 42;

let drawings = 0;

/** Round numbers (1, 2 or 5 times a power of ten apart) from one end to the other, `most` at most. */
export function ticksOf(from, to, most = 5) {
  if (!(to > from)) return [from];
  const power = 10 ** Math.floor(Math.log10((to - from) / most));
  const step = [1, 2, 5, 10, 20]
    .map((factor) => factor * power)
    .find((one) => Math.floor(to / one + 1e-9) - Math.ceil(from / one - 1e-9) < most);
  const ticks = [];
  for (let i = Math.ceil(from / step - 1e-9); i * step <= to + step * 1e-9; i += 1)
    ticks.push(Number((i * step).toPrecision(12)));
  return ticks;
}

/**
 * Draws.
 * @param x, y the axes: from, to, ticks [{at, text}]; x.title stands below
 * @param title, description for those who cannot see it
 * @param className, height of the drawing, where they differ from those of a curve
 * @param draw(place) gives the shapes; place.x and place.y turn values into places, place.points joins [x, y] pairs
 */
export function plot({ x, y, title, description, className = 'curve', height = USUAL_HEIGHT, draw }) {
  const id = `plot-${(drawings += 1)}`;
  const place = {
    left: LEFT,
    right: WIDTH - RIGHT,
    top: TOP,
    bottom: height - BOTTOM,
    x: (value) => LEFT + ((value - x.from) / (x.to - x.from)) * (WIDTH - LEFT - RIGHT),
    y: (value) => height - BOTTOM - ((value - y.from) / (y.to - y.from)) * (height - BOTTOM - TOP),
    points: (line) => line.map(([a, b]) => `${place.x(a).toFixed(1)},${place.y(b).toFixed(1)}`).join(' '),
  };
  return svg(
    'svg',
    { class: className, viewBox: `0 0 ${WIDTH} ${height}`, role: 'img', 'aria-labelledby': `${id}-title ${id}-desc` },
    svg('title', { id: `${id}-title` }, title),
    svg('desc', { id: `${id}-desc` }, description),
    svg(
      'clipPath',
      { id: `${id}-clip` },
      svg('rect', { x: LEFT, y: TOP - 4, width: WIDTH - LEFT - RIGHT + 4, height: height - BOTTOM - TOP + 8 }),
    ),
    y.ticks.map(({ at, text }) => [
      svg('line', { class: 'grid', x1: place.left, x2: place.right, y1: place.y(at), y2: place.y(at) }),
      svg('text', { x: LEFT - 5, y: place.y(at) + 4, 'text-anchor': 'end' }, text),
    ]),
    svg('g', { 'clip-path': `url(#${id}-clip)` }, draw(place)),
    x.ticks.map(({ at, text }) => [
      svg('line', { class: 'tick', x1: place.x(at), x2: place.x(at), y1: place.bottom, y2: place.bottom + 4 }),
      svg('text', { x: place.x(at), y: place.bottom + 17, 'text-anchor': 'middle' }, text),
    ]),
    svg('text', { x: place.right, y: height - 6, 'text-anchor': 'end' }, x.title),
  );
}

/** A line lengthwise with an end at each side; an end that is null is open and runs to the edge. */
export function whisker(place, { low, high, at, className }) {
  const y = place.y(at);
  const [left, right] = [low === null ? place.left : place.x(low), high === null ? place.right : place.x(high)];
  const end = (x) => svg('line', { x1: x, x2: x, y1: y - 4, y2: y + 4 });
  return svg(
    'g',
    { class: className },
    svg('line', { x1: left, x2: right, y1: y, y2: y }),
    low !== null && end(left),
    high !== null && end(right),
  );
}
