// What each chart shows: lines, scale, words for a value. One container has its band and the spread of its readings;
// several have one line each.

import * as f from '../shared/format.js';
import { RARE } from '../shared/quantities.js';
import { lineStyle } from './colours.js';
import { texts } from './texts.js';

const LINE = [
  { color: '--line-1', width: 1.8 },
  { color: '--line-1', width: 0 },
  { color: '--line-1', width: 0 },
];
const SPREAD = { lower: 2, upper: 3, color: '--spread' };
const degrees = (celsius) => f.toUnit(celsius);

/** @param getBand the band in force, since settings may change while the page is open */
export function specsOfOne(getBand) {
  const made = base(getBand);
  made.temperature.series = [...LINE, { color: '--room', width: 1.4, dash: [5, 4] }];
  made.heat.series = [{ ...LINE[0], dots: true }, ...LINE.slice(1)];
  return made;
}

/** @param count how many containers share a chart */
export function specsOfSeveral(count) {
  const series = Array.from({ length: count }, (_, i) => ({ ...lineStyle(i), width: 1.8 }));
  return Object.fromEntries(
    Object.entries(base(() => null)).map(([name, spec]) => [
      name,
      { ...spec, series, envelope: undefined, key: name === 'light' ? texts.eachLineUpwards : '' },
    ]),
  );
}

function base(getBand) {
  const limitsOf = (key, ...ends) => ends.map((end) => getBand()?.[key][end]).filter(f.known);
  const warm = () => limitsOf('temperature', 'low', 'high').map(degrees);
  return {
    temperature: {
      title: () => texts.temperature(f.unitName()),
      unit: f.unitName,
      series: LINE,
      envelope: SPREAD,
      range: (min, max) => padded(min, max, warm(), 1.5),
      zones: () => (getBand() ? [{ from: warm()[0], to: warm()[1], color: '--zone' }] : []),
      limits: warm,
      formatTick: (value) => f.number(value, Number.isInteger(value) ? 0 : 1),
      show: (shown) => `${f.number(shown, 1)} ${f.unitName()}`,
      digits: 1,
      key: texts.shadedTheLimits,
    },
    humidity: {
      title: () => texts.humidity,
      unit: () => '%',
      series: LINE,
      envelope: SPREAD,
      range: (min, max) => [
        Math.max(0, Math.floor((Math.min(min ?? 100, ...limitsOf('humidity', 'low')) - 4) / 5) * 5),
        Math.max(101, max ?? 0),
      ],
      zones: () => [{ from: f.SATURATED_FROM, to: 200, color: '--zone' }],
      limits: () => limitsOf('humidity', 'low'),
      formatTick: (value) => (value > 100 ? '' : f.number(value)),
      show: f.humidity,
      digits: 0,
      key: texts.shadedSaturated(f.SATURATED_FROM),
    },
    light: {
      title: () => texts.lightLux,
      unit: () => 'lx',
      series: LINE,
      envelope: SPREAD,
      lightScale: true,
      range: (min, max) => [-0.25, Math.max(10, (max ?? 0) * 1.4)],
      zones: () => limitsOf('light', 'high').map((high) => ({ from: 0, to: high, color: '--zone' })),
      limits: () => limitsOf('light', 'high'),
      formatTick: (value) => f.number(value),
      show: f.lux,
      digits: 1,
      key: texts.eachLineUpwardsShaded,
    },
    ...Object.fromEntries(RARE.map((quantity) => [quantity.key, plainSpec(quantity)])),
    heat: {
      title: () => texts.heatSoFar(f.unitName()),
      unit: () => `${f.unitName()}·h`,
      series: LINE,
      envelope: SPREAD,
      sum: true,
      range: (min, max) => padded(min, max, [], 1),
      formatTick: (value) => f.number(value, value % 1 ? 1 : 0),
      show: (shown) => `${f.number(shown, Math.abs(shown) < 100 ? 1 : 0)} ${f.unitName()}·h`,
      digits: 1,
      key: texts.aDotAtTheEnd,
    },
  };
}

/** A quantity without a band. */
function plainSpec({ title, unit, show }) {
  return {
    title: () => `${title}, ${unit}`,
    unit: () => unit,
    series: LINE,
    envelope: SPREAD,
    range: (min, max) => padded(min, max, [], 1),
    formatTick: (value) => f.number(value),
    show,
    digits: 0,
    key: texts.lineMeanWithSpread,
    rare: true,
  };
}

function padded(min, max, others, least) {
  const values = [min, max, ...others].filter((value) => value !== null && value !== undefined);
  if (values.length === 0) return [0, 1];
  const low = Math.min(...values);
  const high = Math.max(...values);
  const pad = Math.max((high - low) * 0.06, least * 0.5);
  return [low - pad, high + pad];
}
