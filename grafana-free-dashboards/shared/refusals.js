// Why the service refused an input, by the rule that it broke. Other refusals come as sentences of the service. Pure.

import { number, round, temperature, temperatureDifference, toUnit, unitName } from './format.js';
import { moment } from './time-format.js';
import { texts } from './texts.js';

const MOMENTS = ['now', 'earliest', 'first', 'since', 'from', 'until', 'sownAt', 'gatheredAt'];
/** In “between 0 and 10 °C”, this figure is shown without the unit. */
const LEAST = 'least';

/** As many digits as it has, three at most. */
const plain = (value) => number(value, digitsOf(value, 3));
const digitsOf = (value, most) => [0, 1, 2].find((digits) => digits >= most || round(value, digits) === value) ?? most;

/** @param unit °C, K for a difference of temperatures, or another */
function amount(value, unit) {
  if (unit === '°C') return temperature(value, digitsOf(round(toUnit(value), 3), 1));
  if (unit === 'K') return temperatureDifference(value, unitName() === '°C' ? digitsOf(value, 1) : 1);
  return unit ? `${plain(value)} ${texts.refusedUnits[unit] ?? unit}` : plain(value);
}

/** The figures as they are shown. @param nameOf names a field */
function shown({ unit, ...figures }, nameOf) {
  const show = (name, value) => {
    if (name === 'of') return nameOf(value);
    // Told from 1970, a moment has its day and year, as the field has them.
    if (MOMENTS.includes(name)) return moment(value, 0);
    if (Array.isArray(value)) return value.join(', ');
    if (typeof value !== 'number') return value;
    const text = amount(value, unit);
    return name === LEAST && unit && figures.most !== undefined ? text.slice(0, text.lastIndexOf(' ')) : text;
  };
  return Object.fromEntries(Object.entries(figures).map(([name, value]) => [name, show(name, value)]));
}

/** The name of a field without its label; of `cold.limit`, `limit`. */
const named = (field) => texts.fieldNames[field] ?? texts.fieldNames[field.split('.').pop()] ?? field;

/**
 * @param problem of the service: detail, field, rule, figures, entry
 * @param labelOf the label of a field in the form; undefined if there is none
 */
export function refusalWords({ detail, field = '', rule, figures, entry }, labelOf = () => undefined) {
  const words = texts.rules[rule];
  if (!words) return detail;
  const nameOf = (name) => labelOf(name) ?? named(name);
  const sentence = words(nameOf(field), shown(figures ?? {}, nameOf));
  return entry ? `${texts.becauseOfThis(texts.entryKinds[entry.kind], moment(entry.at, 0))} ${sentence}` : sentence;
}
