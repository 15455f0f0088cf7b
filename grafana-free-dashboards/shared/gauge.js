// Draws the temperature as a marker on a vertical tube. The band takes the same place on every tube, so a marker
// outside the middle shows at a glance.

import { svg } from './dom.js';
import { number, temperature, toUnit } from './format.js';
import { texts } from './texts.js';

const HEIGHT = 132;
const TOP = 8;
const TUBE = HEIGHT - 2 * TOP;
/** How far below and above the band the tube reaches; beyond that the marker stays at the end. */
const BELOW_C = 10;
const ABOVE_C = 6;
const ZONE_TOP = 0.3;
const ZONE_BOTTOM = 0.7;

/** The place on the tube, 0 at its top and 1 at its bottom, and whether the value is off the tube. */
export function placeOn(value, low, high) {
  const place =
    value > high
      ? ZONE_TOP - ((value - high) / ABOVE_C) * ZONE_TOP
      : value < low
        ? ZONE_BOTTOM + ((low - value) / BELOW_C) * (1 - ZONE_BOTTOM)
        : ZONE_BOTTOM - ((value - low) / Math.max(high - low, 1e-9)) * (ZONE_BOTTOM - ZONE_TOP);
  return { place: Math.min(1, Math.max(0, place)), off: place < 0 || place > 1 };
}

const y = (place) => TOP + place * TUBE;

/**
 * @param value °C, or null where it is not known
 * @param dayRange lowest and highest value of the past 24 hours, or null
 */
export function gauge({ value, low, high, dayRange }) {
  const known = value !== null && value !== undefined;
  return svg(
    'svg',
    {
      class: 'gauge',
      viewBox: `0 0 64 ${HEIGHT}`,
      width: 64,
      height: HEIGHT,
      role: 'img',
      'aria-label': describe(value, low, high),
    },
    svg('rect', { class: 'tube', x: 6, y: TOP - 6, width: 18, height: TUBE + 12, rx: 9 }),
    svg('rect', { class: 'zone', x: 6, y: y(ZONE_TOP), width: 18, height: y(ZONE_BOTTOM) - y(ZONE_TOP) }),
    edge(ZONE_TOP, high),
    edge(ZONE_BOTTOM, low),
    dayRange && whisker(dayRange, low, high),
    known
      ? marker(value, low, high)
      : svg('text', { class: 'no-mark', x: 15, y: HEIGHT / 2 + 6, 'text-anchor': 'middle' }, '?'),
  );
}

function edge(place, limit) {
  return [
    svg('line', { class: 'limit', x1: 3, x2: 29, y1: y(place), y2: y(place) }),
    svg(
      'text',
      { class: 'limit-text', x: 33, y: y(place) + 4 },
      `${number(toUnit(limit), Number.isInteger(toUnit(limit)) ? 0 : 1)}°`,
    ),
  ];
}

function whisker(range, low, high) {
  const top = y(placeOn(range.max, low, high).place);
  const bottom = y(placeOn(range.min, low, high).place);
  return svg('line', { class: 'whisker', x1: 15, x2: 15, y1: top, y2: Math.max(bottom, top + 1) });
}

/** A disc inside the band, a diamond outside it, for people who do not see the colour. */
function marker(value, low, high) {
  const { place, off } = placeOn(value, low, high);
  const at = y(place);
  const outside = value < low ? 'cold' : value > high ? 'hot' : null;
  const shape = outside
    ? svg('path', { d: `M15 ${at - 9} L24 ${at} L15 ${at + 9} L6 ${at} Z` })
    : svg('circle', { cx: 15, cy: at, r: 7 });
  const arrow =
    off && svg('path', { class: 'off', d: value < low ? `M32 ${at - 5} h10 l-5 8 z` : `M32 ${at + 5} h10 l-5 -8 z` });
  return svg('g', { class: `mark ${outside ?? 'inside'}` }, shape, arrow);
}

function describe(value, low, high) {
  const band = texts.limitsTo(temperature(low), temperature(high));
  if (value === null || value === undefined) return texts.temperatureNotKnown(band);
  const where =
    value < low ? texts.belowTheLowerLimit : value > high ? texts.aboveTheUpperLimit : texts.withinTheLimits;
  return `${temperature(value)}, ${where}; ${band}.`;
}
