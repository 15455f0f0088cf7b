// What each of the four charts of a container shows: lines, scale, words for a point.

import { now } from '../shared/clock.js';
import * as f from '../shared/format.js';
import { RARE } from '../shared/quantities.js';
import * as t from '../shared/time-format.js';
import { extent } from '../shared/time-range.js';
import { texts } from './texts.js';

const NO_READINGS = texts.nothingHeard;

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
      title: () => texts.temperature(f.unitName()),
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
      key: texts.shadedTheBandLineMean,
    },
    humidity: {
      title: () => texts.humidity,
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
      key: texts.shadedSaturatedFromAboutDifferences(f.SATURATED_FROM),
    },
    light: {
      title: () => texts.lightLux,
      series: LINE,
      envelope: SPREAD,
      lightScale: true,
      range: (min, max) => [-0.25, Math.max(10, (max ?? 0) * 1.4)],
      zones: () => [{ from: 0, to: getBand().light.high, color: '--zone' }],
      limits: () => [getBand().light.high],
      formatTick: (value) => f.number(value),
      show: f.lux,
      key: texts.eachLineUpwardsIsTen,
    },
    ...Object.fromEntries(RARE.map((quantity) => [quantity.key, plainSpec(quantity)])),
    heat: {
      title: () => texts.heatSoFarH(f.unitName()),
      series: [
        { color: '--line', width: 1.8, dots: true },
        { color: '--line', width: 0 },
        { color: '--line', width: 0 },
      ],
      envelope: SPREAD,
      range: (min, max) => padded(min, max, [], 1),
      formatTick: (value) => f.number(value, value % 1 ? 1 : 0),
      show: (shown) => `${f.number(shown, Math.abs(shown) < 100 ? 1 : 0)} ${f.unitName()}·h`,
      key: texts.aDotAtTheEnd,
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
    key: texts.lineMeanWithLowestAnd,
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
  const gaps = all.gaps > 0 ? `; ${f.count(all.gaps, texts.gapCount)}` : '';
  const [low, high] = [spec.show(all.min), spec.show(all.max)];
  return low === high ? texts.throughout(low, gaps) : texts.to(low, high, gaps);
}

/** For heat: the sum so far, and the most that the gaps could have added. */
function heatWords(columns, index, spec) {
  const [sum, , upper] = columns.slice(1).map((column) => spec.show(column[index]));
  return sum === upper ? sum : texts.atMost(sum, upper);
}

export function pointWords(name, columns, index, spec) {
  const at = t.stamp(columns[0][index], now());
  if (name === 'heat') return `${at}: ${heatWords(columns, index, spec)}`;
  const [mean, min, max, room] = columns.slice(1).map((column) => column[index]);
  const roomWords = room === null || room === undefined ? '' : texts.room(spec.show(room));
  if (mean === null || mean === undefined) return `${at}: ${mean === null ? NO_READINGS : f.UNKNOWN}${roomWords}`;
  const spread = spec.show(min) === spec.show(max) ? '' : texts.to2(spec.show(min), spec.show(max));
  return `${at}: ${spec.show(mean)}${spread}${roomWords}`;
}
