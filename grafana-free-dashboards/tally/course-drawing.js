// Draws the course of germination with its axes and key.

import { h, svg } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { curveLines, fittedLine } from './course.js';
import { plot, ticksOf, whisker } from './plot.js';

/** The axis of days or heat, which a drawing below it can share. */
export function xAxis({ end, xTitle, tickText, toShown = (value) => value }) {
  const to = end * 1.02;
  const ratio = toShown(1);
  const ticks = ticksOf(0, to * ratio, 5).map((shown) => ({ at: shown / ratio, text: tickText(shown) }));
  return { from: 0, to, title: xTitle, ticks };
}

/** Two lines and the area between: a check gives an upper bound of the time. `toShown` converts to the chosen unit. */
export function drawing({
  curve,
  end,
  title,
  description,
  xTitle,
  tickText,
  toShown = (value) => value,
  whiskers = [],
  fit = null,
}) {
  const { least, most } = curveLines(curve, end);
  const top = niceTop(Math.max(most.at(-1)[1], fit ? fittedLine(fit, end).at(-1)[1] : 0, 0.02));
  const x = xAxis({ end, xTitle, tickText, toShown });
  return h(
    'figure',
    { class: 'curve-figure' },
    plot({
      title,
      description,
      x,
      y: {
        from: 0,
        to: top,
        ticks: [0, 0.5, 1].map((part) => ({
          at: part * top,
          text: `${f.number(part * top * 100, part * top > 0 && part * top < 0.02 ? 1 : 0)} %`,
        })),
      },
      draw: (place) => [
        svg('polygon', { class: 'between', points: `${place.points(most)} ${place.points([...least].reverse())}` }),
        svg('polyline', { class: 'most', points: place.points(most) }),
        svg('polyline', { class: 'least', points: place.points(least) }),
        whiskers.map((one) => whisker(place, { ...one, className: 'whisker' })),
        fit && [
          svg('polyline', { class: 'fitted', points: place.points(fittedLine(fit, x.to)) }),
          fit.medianHeat <= end && half(place, fit),
        ],
      ],
    }),
  );
}

function half(place, { medianHeat, medianInterval, finalFraction }) {
  const at = finalFraction / 2;
  const [low, high] = medianInterval ?? [null, null];
  return svg(
    'g',
    { class: 'half' },
    whisker(place, { low, high, at, className: 'half-bar' }),
    svg('circle', { cx: place.x(medianHeat), cy: place.y(at), r: 4 }),
  );
}

const niceTop = (most) => [0.02, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.8].find((top) => top >= most) ?? 1;
