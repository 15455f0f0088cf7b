// Words for calibration points and corrections, and reading the form for a point. Pure.

import * as f from '../shared/format.js';
import { typedNumber } from '../shared/typed.js';

/** Quantities that can be calibrated; digits for values of each. */
export const CALIBRATED = [
  { key: 'temperature', title: 'Temperature', unit: '°C', digits: 2 },
  { key: 'humidity', title: 'Humidity', unit: '%', digits: 1 },
  { key: 'light', title: 'Light', unit: 'lux', digits: 1 },
  { key: 'co2', title: 'CO₂', unit: 'ppm', digits: 0 },
  { key: 'mediumMoisture', title: 'Medium', unit: '%', digits: 1 },
  { key: 'battery', title: 'Battery', unit: 'V', digits: 2 },
];

export const METHODS = [
  { key: 'comparison', title: 'Comparison with a better instrument' },
  { key: 'icePoint', title: 'Ice point (0 °C)', quantity: 'temperature', trueValue: '0', uncertainty: '0.06' },
  { key: 'saturatedSalt', title: 'Salt jar', quantity: 'humidity' },
  { key: 'dark', title: 'Dark (0 lux)', quantity: 'light', trueValue: '0', uncertainty: '0' },
  { key: 'knownLamp', title: 'Known lamp', quantity: 'light' },
  { key: 'other', title: 'Other' },
];

export const SALTS = [
  { key: 'magnesiumChloride', title: 'Magnesium chloride (33 %)' },
  { key: 'sodiumChloride', title: 'Table salt (75 %)' },
  { key: 'potassiumChloride', title: 'Potassium chloride (84 %)' },
  { key: 'potassiumSulphate', title: 'Potassium sulphate (97 %)' },
];

/** The methods that can be used for a quantity. */
export const methodsOf = (quantity) => METHODS.filter((method) => !method.quantity || method.quantity === quantity);

const quantityOf = (key) => CALIBRATED.find((quantity) => quantity.key === key);

/** A value with its unit; temperatures stay in °C, as sensors send them. */
export function valueOf(key, value) {
  const { unit, digits } = quantityOf(key);
  return value === null ? f.UNKNOWN : `${f.number(value, digits)} ${unit}`;
}

/** What the correction does now, and how sure the corrected value is. */
export function correctionWords({ quantity, sessions, now }) {
  const { title, digits, unit } = quantityOf(quantity);
  const offset = `${now.offset < 0 ? '\u2212' : '+'} ${f.number(Math.abs(now.offset), digits)} ${unit}`;
  const change =
    Math.abs(now.gain - 1) < 0.00005 ? `reading ${offset}` : `${f.number(now.gain, 4)} × reading ${offset}`;
  const result = `${valueOf(quantity, now.reading)} becomes ${valueOf(quantity, now.corrected)}`;
  const sure = `± ${valueOf(quantity, now.expandedUncertainty)} (95 %)`;
  const of = sessions.length === 1 ? '' : ` From ${sessions.length} sessions.`;
  return `${title}: ${change}. Now ${result} ${sure}.${of}`;
}

/** The mean of the last day before and after the correction. */
export function meanWords({ quantity, meanBefore, meanAfter }) {
  if (meanBefore === null) return 'No readings in the last day.';
  return `Mean of the last day: ${valueOf(quantity, meanBefore)} before, ${valueOf(quantity, meanAfter)} after.`;
}

/** Reads the typed point. What the method knows by itself may be empty. */
export function readPoint(typed) {
  const problems = [];
  const read = (name, title, optional) => {
    const raw = (typed[name] ?? '').trim();
    if (raw === '' && optional) return undefined;
    const value = raw === '' ? NaN : typedNumber(raw);
    if (Number.isNaN(value)) problems.push(`${title}: enter a number.`);
    return value;
  };
  const bySalt = typed.method === 'saturatedSalt' && Boolean(typed.salt);
  const byItself = bySalt || typed.method === 'icePoint' || typed.method === 'dark';
  const body = {
    quantity: typed.quantity,
    method: typed.method,
    reading: read('reading', 'Reading'),
    trueValue: read('trueValue', 'True value', byItself),
    uncertainty: read('uncertainty', 'Uncertainty', byItself),
    salt: bySalt ? typed.salt : undefined,
    saltTemperature: bySalt ? read('saltTemperature', 'Temperature of the jar') : undefined,
    note: (typed.note ?? '').trim() || undefined,
  };
  if (typed.at) {
    const at = new Date(typed.at);
    if (Number.isNaN(at.getTime())) problems.push('When: enter a date and a time.');
    else body.at = at.toISOString();
  }
  return { body: JSON.parse(JSON.stringify(body)), problems };
}
