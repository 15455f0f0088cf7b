// Words for calibration points and corrections, and reading the form for a point. Pure.

import * as f from '../shared/format.js';
import { typedNumber } from '../shared/typed.js';
import { typedTime } from '../shared/time-format.js';
import { texts } from './texts.js';

/** Quantities that can be calibrated; digits for values of each. */
export const CALIBRATED = [
  { key: 'temperature', title: texts.temperature, unit: '°C', digits: 2 },
  { key: 'humidity', title: texts.humidity, unit: '%', digits: 1 },
  { key: 'light', title: texts.light, unit: 'lux', digits: 1 },
  { key: 'co2', title: texts.co2, unit: 'ppm', digits: 0 },
  { key: 'mediumMoisture', title: texts.medium, unit: '%', digits: 1 },
  { key: 'battery', title: texts.battery, unit: 'V', digits: 2 },
];

export const METHODS = [
  { key: 'comparison', title: texts.comparisonWithABetterInstrument },
  { key: 'icePoint', title: texts.icePoint0Degreesc, quantity: 'temperature', trueValue: '0', uncertainty: '0.06' },
  { key: 'saturatedSalt', title: texts.saltJar, quantity: 'humidity' },
  { key: 'dark', title: texts.dark0Lux, quantity: 'light', trueValue: '0', uncertainty: '0' },
  { key: 'knownLamp', title: texts.knownLamp, quantity: 'light' },
  { key: 'other', title: texts.other },
];

export const SALTS = [
  { key: 'magnesiumChloride', title: texts.magnesiumChloride33 },
  { key: 'sodiumChloride', title: texts.tableSalt75 },
  { key: 'potassiumChloride', title: texts.potassiumChloride84 },
  { key: 'potassiumSulphate', title: texts.potassiumSulphate97 },
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
    Math.abs(now.gain - 1) < 0.00005 ? texts.reading2(offset) : texts.reading3(f.number(now.gain, 4), offset);
  const result = texts.becomes(valueOf(quantity, now.reading), valueOf(quantity, now.corrected));
  const sure = `± ${valueOf(quantity, now.expandedUncertainty)} (95 %)`;
  const of = sessions.length === 1 ? '' : texts.fromSessions(sessions.length);
  return texts.now2(title, change, result, sure, of);
}

/** The mean of the last day before and after the correction. */
export function meanWords({ quantity, meanBefore, meanAfter }) {
  if (meanBefore === null) return texts.noReadingsInTheLast;
  return texts.meanOfTheLastDay(valueOf(quantity, meanBefore), valueOf(quantity, meanAfter));
}

/** Reads the typed point. What the method knows by itself may be empty. */
export function readPoint(typed) {
  const problems = [];
  const read = (name, title, optional) => {
    const raw = (typed[name] ?? '').trim();
    if (raw === '' && optional) return undefined;
    const value = raw === '' ? NaN : typedNumber(raw);
    if (Number.isNaN(value)) problems.push(texts.enterANumber(title));
    return value;
  };
  const bySalt = typed.method === 'saturatedSalt' && Boolean(typed.salt);
  const byItself = bySalt || typed.method === 'icePoint' || typed.method === 'dark';
  const body = {
    quantity: typed.quantity,
    method: typed.method,
    reading: read('reading', texts.reading),
    trueValue: read('trueValue', texts.trueValue, byItself),
    uncertainty: read('uncertainty', texts.uncertainty, byItself),
    salt: bySalt ? typed.salt : undefined,
    saltTemperature: bySalt ? read('saltTemperature', texts.temperatureOfTheJar) : undefined,
    note: (typed.note ?? '').trim() || undefined,
  };
  if (typed.at) {
    const at = typedTime(typed.at);
    if (Number.isNaN(at)) problems.push(texts.whenEnterADateAnd);
    else body.at = new Date(at).toISOString();
  }
  return { body: JSON.parse(JSON.stringify(body)), problems };
}
