// The only file that touches uPlot. It owns what it makes: each listener, observer and chart created here is
// undone by `destroy`.

import { clockDate } from '../shared/time-format.js';
import { scaleOf, timeAxis, valueAxis } from './axes.js';
import { cursorOf, seriesOf } from './lines.js';
import { drawGround, drawLabels } from './marks.js';
import { watchTouch } from './touch.js';
import { watchPaper } from './paper.js';
import uPlot from '/uplot/uPlot.esm.js';

/**
 * Draws into `host`.
 * @param spec
 *   series: [{color, width, dash, dots}] for each column after the times, colours by name of a custom property;
 *   envelope: {upper, lower, color}, by column number; range(min, max): lowest and highest of the y axis;
 *   formatTime(ms): ticks of the x axis, day and hour where left out;
 *   lightScale: true for the scale that shows 1 lux and 10 000 lux alike; formatTick(value);
 *   zones: [{from, to, color}], limits: [value], both on the y axis;
 *   onCursor(index or null), onZoom(from, to), onReset(); sync: charts of one name share their cursor.
 */
export function createChart(host, spec) {
  let shown = { columns: [[], ...spec.series.map(() => [])], from: 0, to: 1, marks: [] };
  let plot = null;
  let undoTouch = null;
  let frame = 0;

  function build() {
    undoTouch?.();
    plot?.destroy();
    plot = new uPlot(
      optionsOf(host, spec, () => shown),
      shown.columns,
      host,
    );
    undoTouch = watchTouch(plot, { onSelect: (left, right) => zoom(plot, spec, left, right), onReset: spec.onReset });
  }

  function resize() {
    cancelAnimationFrame(frame);
    frame = requestAnimationFrame(() => {
      const size = sizeOf(host);
      if (plot && size.width > 0 && (size.width !== plot.width || size.height !== plot.height)) plot.setSize(size);
    });
  }

  const observer = new ResizeObserver(resize);
  observer.observe(host);
  const scheme = matchMedia('(prefers-color-scheme: dark)');
  scheme.addEventListener('change', build);
  const undoPaper = watchPaper(() => plot && build());

  return {
    update(next) {
      shown = { ...shown, ...next };
      if (plot) plot.setData(shown.columns, true);
      else build();
    },
    /** Points at a moment and tells its values. */
    pointAt(at) {
      if (plot) plot.setCursor({ left: plot.valToPos(at, 'x'), top: 1 });
    },
    /** The picture as it is shown, as a canvas element; null before the first update. */
    picture: () => plot?.ctx.canvas ?? null,
    destroy() {
      cancelAnimationFrame(frame);
      observer.disconnect();
      scheme.removeEventListener('change', build);
      undoPaper();
      undoTouch?.();
      plot?.destroy();
      plot = null;
    },
  };
}

const sizeOf = (host) => ({ width: Math.floor(host.clientWidth), height: Math.floor(host.clientHeight) });

function optionsOf(host, spec, shown) {
  const style = getComputedStyle(host);
  const colour = (name) => style.getPropertyValue(name).trim();
  const font = `12px ${style.fontFamily}`;
  const paint = { colour, font, spec, shown };
  return {
    ...sizeOf(host),
    ms: 1,
    tzDate: (at) => clockDate(at),
    padding: [14, 12, 0, 0],
    legend: { show: false },
    cursor: cursorOf(spec, colour),
    select: { show: true, left: 0, top: 0, width: 0, height: 0 },
    scales: { x: { time: true, range: () => [shown().from, shown().to] }, y: scaleOf(spec) },
    axes: [timeAxis(spec, colour, font), valueAxis(spec, colour, font)],
    series: [{}, ...spec.series.map((series) => seriesOf(series, colour))],
    bands: spec.envelope
      ? [{ series: [spec.envelope.upper, spec.envelope.lower], fill: colour(spec.envelope.color) }]
      : [],
    hooks: {
      drawAxes: [(u) => drawGround(u, paint)],
      draw: [(u) => drawLabels(u, paint)],
      setCursor: [(u) => spec.onCursor(u.cursor.left >= 0 ? u.cursor.idx : null)],
      setSelect: [
        (u) => {
          if (u.select.width > 0) zoom(u, spec, u.select.left, u.select.left + u.select.width);
        },
      ],
    },
  };
}

function zoom(u, spec, left, right) {
  u.setSelect({ left: 0, top: 0, width: 0, height: 0 }, false);
  if (right - left >= 8) spec.onZoom(u.posToVal(left, 'x'), u.posToVal(right, 'x'));
}
