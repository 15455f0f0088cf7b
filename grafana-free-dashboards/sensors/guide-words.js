// What the guided calibration says while a reading settles, and the point that it makes. Pure.

import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';
import { typedNumber } from '../shared/typed.js';
import { texts } from './texts.js';

const MINUTE = 60_000;
const UNITS = { humidity: '%', light: 'lux' };
const DIGITS = { temperature: 2, humidity: 1, light: 1 };

/** A value in the unit that the reader chose. */
export const value = (quantity, raw) =>
  quantity === 'temperature'
    ? f.temperature(raw, DIGITS.temperature)
    : `${f.number(raw, DIGITS[quantity])} ${UNITS[quantity]}`;

export const difference = (quantity, raw) =>
  quantity === 'temperature' ? f.temperatureDifference(raw, 2) : value(quantity, raw);

export const unitOf = (quantity) => (quantity === 'temperature' ? f.unitName() : UNITS[quantity]);

/** Time in place that is still missing, ms; 0 once it is over. */
export const missingTime = (procedure, placedAt, now) => Math.max(0, placedAt + procedure.minutes * MINUTE - now);

const isNear = ({ expected }, { mean }) => !expected || Math.abs(mean - expected.value) <= expected.within;

/** How far the newest readings are from a steady value, or null if nothing is known yet. */
export function settleWords(procedure, settling) {
  if (settling === null) return null;
  const { quantity, state, readings, readingsNeeded, mean, drift, driftLimit, spread, seconds } = settling;
  const over = t.duration(seconds * 1000);
  if (state === 'waiting') return texts.ofReadingsNeeded(readings, readingsNeeded);
  if (state === 'drifting') {
    const way = drift < 0 ? texts.falling : texts.rising;
    const steady = texts.steadyIsAtMost(difference(quantity, driftLimit));
    return texts.byIn(way, difference(quantity, Math.abs(drift)), over, steady);
  }
  if (state === 'unsteady') return texts.unsteadyOneReadingIsOff(difference(quantity, spread));
  if (!isNear(procedure, settling)) {
    const near = value(quantity, procedure.expected.value);
    return texts.settledAtButItShould(value(quantity, mean), near);
  }
  return texts.settledAtFor(value(quantity, mean), over);
}

/** Whether the value can be taken now. */
export const canTake = (procedure, placedAt, settling, now) =>
  settling?.state === 'settled' && isNear(procedure, settling) && missingTime(procedure, placedAt, now) === 0;

/** Reads what was typed, in the reader's unit, and makes the calibration point. */
export function pointOf(procedure, settling, typed) {
  const problems = [];
  const read = (name, title, convert = (shown) => shown) => {
    if (!procedure.asks.includes(name)) return undefined;
    const number = typedNumber((typed[name] ?? '').trim() || 'x');
    if (Number.isNaN(number)) problems.push(texts.enterANumber(title));
    return Number.isNaN(number) ? undefined : convert(number);
  };
  const warm = procedure.quantity === 'temperature';
  const body = {
    quantity: procedure.quantity,
    method: procedure.method ?? procedure.key,
    at: settling.at,
    reading: settling.mean,
    trueValue: read('trueValue', texts.trueValue, warm ? f.fromUnit : undefined),
    uncertainty: read('uncertainty', texts.uncertainty, warm ? f.differenceFromUnit : undefined),
    salt: procedure.salt,
    saltTemperature: read('saltTemperature', texts.temperatureOfTheJar, f.fromUnit),
  };
  return { body: JSON.parse(JSON.stringify(body)), problems };
}
