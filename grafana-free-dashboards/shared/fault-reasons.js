// What is wrong with a sensor and what to do, by the kind of fault and its figures. Pure.

import * as f from './format.js';
import { texts } from './texts.js';

const UNITS = { humidity: '%', light: 'lux', co2: 'ppm', mediumMoisture: '%', battery: 'V' };
const MINUTE = 60;
const HOUR = 3600;
const DAY = 86_400;

/** At most two decimals, no zeros at their end. */
const plain = (value) => f.number(value, [0, 1].find((digits) => f.round(value, digits) === f.round(value, 2)) ?? 2);

/** @param fault its quantity; its kind is `drift` where the value is a difference */
export function valueWords({ kind, quantity }, value) {
  if (quantity === 'temperature')
    return `${plain((kind === 'drift' ? f.differenceToUnit : f.toUnit)(value))} ${f.unitName()}`;
  return [plain(value), UNITS[quantity]].filter(Boolean).join(' ');
}

const low = (fault) => valueWords(fault, fault.low);
const high = (fault) => valueWords(fault, fault.high);
const values = (fault) => (fault.low === fault.high ? low(fault) : texts.to(low(fault), high(fault)));

/** A duration in the largest unit that gives 2 or more, such as 90 min or 3 h. */
export function long(seconds) {
  if (seconds < 2 * MINUTE) return texts.seconds2(f.number(seconds));
  if (seconds < 2 * HOUR) return texts.minutes2(f.number(seconds / MINUTE));
  return seconds < 2 * DAY ? texts.hours2(f.number(seconds / HOUR)) : texts.days2(f.number(seconds / DAY));
}

const lasted = ({ from, to }) => long((Date.parse(to) - Date.parse(from)) / 1000);

export const REASONS = {
  'power-on': (fault) => texts.reasonPowerOn(valueWords(fault, 85)),
  'not-connected': (fault) => texts.reasonNotConnected(valueWords(fault, -127)),
  'raw-limit': (fault) => texts.reasonRawLimit(values(fault)),
  'out-of-range': (fault) => texts.reasonOutOfRange(values(fault)),
  implausible: (fault) => texts.reasonImplausible(values(fault)),
  stuck: (fault) => texts.reasonStuck(values(fault), lasted(fault)),
  spike: (fault) => texts.reasonSpike(values(fault)),
  jump: (fault) => texts.reasonJump(low(fault), high(fault)),
  'saturated-humidity': (fault) => texts.reasonSaturatedHumidity(lasted(fault)),
  'saturated-light': () => texts.reasonSaturatedLight,
  condensation: () => texts.reasonCondensation,
  drift: (fault) =>
    texts.reasonDrift(fault.otherSensor, Math.abs(fault.low) > Math.abs(fault.high) ? low(fault) : high(fault)),
  'wrong-clock': (fault) =>
    texts.reasonWrongClock(fault.low > 0, long(MINUTE * Math.min(Math.abs(fault.low), Math.abs(fault.high)))),
  'lengthening-interval': (fault) => texts.reasonInterval(long(fault.high), long(fault.low)),
  'falling-battery': (fault) => texts.reasonBattery(f.volts(fault.high), f.volts(fault.low)),
};

/** The reason of a fault, with temperatures in the unit that the reader chose. */
export const reasonWords = (fault) => REASONS[fault.kind](fault);
