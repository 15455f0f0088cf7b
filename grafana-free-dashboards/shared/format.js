// Formats numbers and units. Pure except for the chosen unit, which the browser remembers.

import { decimalMark, pluralOf } from './language.js';
import { texts } from './texts.js';

export const UNKNOWN = '–';
const UNIT_KEY = 'tepidarium.temperatureUnit';
/** From this humidity (%) on, a sensor cannot tell values apart; shown as "saturated". */
export const SATURATED_FROM = 95;

let unit = rememberedUnit();

function rememberedUnit() {
  try {
    return globalThis.localStorage?.getItem(UNIT_KEY) === 'F' ? 'F' : 'C';
  } catch {
    return 'C'; // storage may be forbidden; the choice then lasts as long as the page
  }
}

export const temperatureUnit = () => unit;
export const unitName = () => `°${unit}`;

export function setTemperatureUnit(chosen) {
  unit = chosen === 'F' ? 'F' : 'C';
  try {
    globalThis.localStorage?.setItem(UNIT_KEY, unit);
  } catch {
    /* see above */
  }
}

export const known = (value) => value !== null && value !== undefined && Number.isFinite(value);

/** °C into the unit that the reader chose, and back. */
export const toUnit = (celsius) => (known(celsius) ? (unit === 'F' ? celsius * 1.8 + 32 : celsius) : null);
export const fromUnit = (shown) => (known(shown) ? round(unit === 'F' ? (shown - 32) / 1.8 : shown, 3) : null);
/** A difference in °C, or degree-hours in °C·h: no offset. */
export const differenceToUnit = (celsius) => (known(celsius) ? (unit === 'F' ? celsius * 1.8 : celsius) : null);

export const differenceFromUnit = (shown) => (known(shown) ? round(unit === 'F' ? shown / 1.8 : shown, 3) : null);

export function round(value, digits) {
  const scale = 10 ** digits;
  return Math.round(value * scale) / scale;
}

/** Fixed decimals after the language's mark, a minus sign, no minus zero, thin spaces from 10 000 up. */
export function number(value, digits = 0) {
  if (!known(value)) return UNKNOWN;
  const text = Math.abs(value).toFixed(digits);
  const [whole, fraction] = text.split('.');
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, '\u202f') : whole;
  const sign = value < 0 && Number(text) !== 0 ? '\u2212' : '';
  return sign + grouped + (fraction ? decimalMark + fraction : '');
}

export const temperature = (celsius, digits = 1) =>
  known(celsius) ? `${number(toUnit(celsius), digits)} ${unitName()}` : UNKNOWN;
export const temperatureDifference = (celsius, digits = 1) =>
  known(celsius) ? `${number(differenceToUnit(celsius), digits)} ${unitName()}` : UNKNOWN;

/** With its sign, for a change. */
export function temperatureChange(celsius) {
  if (!known(celsius)) return UNKNOWN;
  return (celsius > 0 ? '+' : '') + temperatureDifference(celsius);
}

export function degreeHours(value) {
  if (!known(value)) return UNKNOWN;
  return `${degreeHoursNumber(value)} ${unitName()}·h`;
}

export function degreeHoursNumber(value) {
  const shown = differenceToUnit(value);
  return number(shown, Math.abs(shown ?? 0) < 100 ? 1 : 0);
}

export function humidity(percent) {
  if (!known(percent)) return UNKNOWN;
  return percent >= SATURATED_FROM ? texts.saturated : `${number(percent)} %`;
}

export function humidityChange(percent) {
  if (!known(percent)) return UNKNOWN;
  return `${percent > 0 ? '+' : ''}${number(percent)} %`;
}

export function lux(value) {
  if (!known(value)) return UNKNOWN;
  return texts.lux(number(value, value > 0 && value < 10 && !Number.isInteger(value) ? 1 : 0));
}

export function luxHours(value) {
  if (!known(value)) return UNKNOWN;
  const digits = value >= 100 || value === 0 ? 0 : value >= 1 ? 1 : 2;
  return texts.luxH(number(value, digits));
}

export const ppm = (value) => (known(value) ? texts.ppm(number(value)) : UNKNOWN);

export const mediumMoisture = (percent) => (known(percent) ? `${number(percent)} %` : UNKNOWN);

export const volts = (value) => (known(value) ? `${number(value, 2)} V` : UNKNOWN);

/** A share as percent. Only exactly 1 is shown as 100 %, only exactly 0 as 0 %. */
export function share(fraction) {
  if (!known(fraction)) return UNKNOWN;
  if (fraction > 0.999 && fraction < 1) return texts.over999;
  if (fraction > 0 && fraction < 0.001) return texts.under01;
  return `${number(fraction * 100, fraction === 0 || fraction === 1 ? 0 : 1)} %`;
}

/** A number and its word. @param forms of the word, such as { one: 'seed', other: 'seeds' } */
export const count = (n, forms) => `${number(n)} ${pluralOf(n, forms)}`;
