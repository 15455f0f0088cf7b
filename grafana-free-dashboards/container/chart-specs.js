// What each of the four charts of a container shows: lines, scale, words for a point.

import { now } from '../shared/clock.js';
import * as f from '../shared/format.js';
import { RARE } from '../shared/quantities.js';
import * as t from '../shared/time-format.js';
import { extent } from '../shared/time-range.js';

const NO_READINGS = 'nothing heard';

const LINE = [
  { color: '--line', width: 1.8 },
  { color: '--line', width: 0 },
  { color: '--line', width: 0 },
];
const SPREAD = { lower: 2, upper: 3, color: '--spread' };

/** @param getBand the band in force, since settings may change while the page is open */
export function specs(getBand) {
  const degrees = (celsius) => f.toUnit(celsius);
  return {
    temperature: {
      title: () => `Temperature, ${f.unitName()}`,
      series: [...LINE, { color: '--room', width: 1.4, dash: [5, 4] }],
      envelope: SPREAD,
      range: (min, max) =>
        padded(min, max, [degrees(getBand().temperature.low), degrees(getBand().temperature.high)], 1.5),
      zones: () => [
        { from: degrees(getBand().temperature.low), to: degrees(getBand().temperature.high), color: '--zone' },
      ],
      limits: () => [degrees(getBand().temperature.low), degrees(getBand().temperature.high)],
      formatTick: (value) => f.number(value, Number.isInteger(value) ? 0 : 1),
      show: (shown) => `${f.number(shown, 1)} ${f.unitName()}`,
      key: 'Shaded: the band. Line: mean, with lowest and highest around it. Dashed: the room.',
    },
    humidity: {
      title: () => 'Humidity, %',
      series: LINE,
      envelope: SPREAD,
      range: (min, max) => [
        Math.max(0, Math.floor((Math.min(min ?? 100, getBand().humidity.low) - 4) / 5) * 5),
        Math.max(101, max ?? 0),
      ],
      zones: () => [{ from: f.SATURATED_FROM, to: 200, color: '--zone' }],
      limits: () => [getBand().humidity.low],
      formatTick: (value) => (value > 100 ? '' : f.number(value)),
      show: f.humidity,
      key: `Shaded: saturated, from about ${f.SATURATED_FROM} %; differences in there tell nothing. Dashed: the lower limit.`,
    },
    light: {
      title: () => 'Light, lux',
      series: LINE,
      envelope: SPREAD,
      lightScale: true,
      range: (min, max) => [-0.25, Math.max(10, (max ?? 0) * 1.4)],
      zones: () => [{ from: 0, to: getBand().light.high, color: '--zone' }],
      limits: () => [getBand().light.high],
      formatTick: (value) => f.number(value),
      show: f.lux,
      key: 'Each line upwards is ten times brighter. Shaded: dark enough.',
    },
    ...Object.fromEntries(RARE.map((quantity) => [quantity.key, plainSpec(quantity)])),
    heat: {
      title: () => `Heat so far, ${f.unitName()}·h`,
      series: [
        { color: '--line', width: 1.8, dots: true },
        { color: '--line', width: 0 },
        { color: '--line', width: 0 },
      ],
      envelope: SPREAD,
      range: (min, max) => padded(min, max, [], 1),
      formatTick: (value) => f.number(value, value % 1 ? 1 : 0),
      show: (shown) => `${f.number(shown, Math.abs(shown) < 100 ? 1 : 0)} ${f.unitName()}·h`,
      key: 'A dot at the end of each day, straight lines between. The shade above is what the gaps could have added.',
    },
  };
}

/** A quantity without a band. */
function plainSpec({ title, unit, show }) {
  return {
    title: () => `${title}, ${unit}`,
    series: LINE,
    envelope: SPREAD,
    range: (min, max) => padded(min, max, [], 1),
    formatTick: (value) => f.number(value),
    show,
    key: 'Line: mean, with lowest and highest around it.',
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

/** Summary of the whole stretch, shown while no finger or mouse is on the chart. */
export function restWords(name, columns, spec) {
  const all = extent(columns);
  if (all === null) return '';
  if (name === 'heat') return heatWords(columns, columns[0].length - 1, spec);
  const gaps = all.gaps > 0 ? `; ${f.count(all.gaps, 'gap')}` : '';
  const [low, high] = [spec.show(all.min), spec.show(all.max)];
  return low === high ? `${low} throughout${gaps}` : `${low} to ${high}${gaps}`;
}

/** For heat: the sum so far, and the most that the gaps could have added. */
function heatWords(columns, index, spec) {
  const [sum, , upper] = columns.slice(1).map((column) => spec.show(column[index]));
  return sum === upper ? sum : `${sum}, at most ${upper}`;
}

export function pointWords(name, columns, index, spec) {
  const at = t.stamp(columns[0][index], now());
  if (name === 'heat') return `${at}: ${heatWords(columns, index, spec)}`;
  const [mean, min, max, room] = columns.slice(1).map((column) => column[index]);
  const roomWords = room === null || room === undefined ? '' : `; room ${spec.show(room)}`;
  if (mean === null || mean === undefined) return `${at}: ${mean === null ? NO_READINGS : f.UNKNOWN}${roomWords}`;
  const spread = spec.show(min) === spec.show(max) ? '' : ` (${spec.show(min)} to ${spec.show(max)})`;
  return `${at}: ${spec.show(mean)}${spread}${roomWords}`;
}
