// The lines, the cursor and the points of a chart, in the form that uPlot takes.

import { lonePoints } from '../shared/series.js';

export function cursorOf(spec, colour) {
  const passed = (type) => type === 'mousemove' || type === 'mouseleave';
  return {
    y: false,
    drag: { x: true, y: false, setScale: false, dist: 8 },
    points: {
      size: (u, index) => (spec.series[index - 1].width === 0 ? 0 : 9),
      width: 2,
      fill: (u, index) => colour(spec.series[index - 1].color),
      stroke: () => colour('--card'),
    },
    // Zooming is not passed on: the page fetches the new range for all charts at once.
    sync: { key: spec.sync, setSeries: false, scales: ['x', null], filters: { pub: passed, sub: passed } },
    bind: { dblclick: () => () => spec.onReset() },
  };
}

export function seriesOf(series, colour) {
  return {
    stroke: series.width === 0 ? undefined : colour(series.color),
    width: series.width,
    dash: series.dash,
    spanGaps: false,
    points:
      series.width === 0
        ? { show: false }
        : {
            show: true,
            size: 5,
            fill: colour(series.color),
            stroke: colour(series.color),
            filter: (u, index) => (series.dots ? innerPoints(u.data[index]) : lonePoints(u.data[index])),
          },
  };
}

/** All but the ends, which are where the stretch shown was cut. */
const innerPoints = (values) => values.map((value, i) => i).slice(1, -1);
