// Why the service refused an input, by the rule that it broke. Other refusals come as sentences of the service.

import { now } from './clock.js';
import { number, round, temperature, temperatureDifference, toUnit, unitName } from './format.js';
import { localTimes } from './local-times.js';
import { moment } from './time-format.js';
import { texts } from './texts.js';

const MOMENTS = ['now', 'earliest', 'first', 'since', 'from', 'until', 'sownAt', 'gatheredAt'];
/** Told from here, a moment has its day and year, as a field has them: also one of 1970. */
const LONG_AGO = -1e11;
/** Figures with the unit. In “between 0 and 10 °C”, the first one is shown without it. */
const MEASURED = ['value', 'than', 'least', 'most'];

/** As many digits as it has, three at most. */
const plain = (value) => number(value, digitsOf(value, 3));
const digitsOf = (value, most) => [0, 1, 2].find((digits) => digits >= most || round(value, digits) === value) ?? most;

/**
 * @param unit °C, K for a difference of temperatures, or another
 * @param entered as `refusalWords` has it
 */
function amount(value, unit, entered) {
  if (entered === 'percent') return `${plain(value * 100)} %`;
  if (unit !== '°C' && unit !== 'K') return unit ? `${plain(value)} ${texts.refusedUnits[unit] ?? unit}` : plain(value);
  if (entered === 'celsius') return `${plain(value)} °C`;
  if (unit === '°C') return temperature(value, digitsOf(round(toUnit(value), 3), 1));
  return temperatureDifference(value, unitName() === '°C' ? digitsOf(value, 1) : 1);
}

/** The figures as they are shown. @param nameOf names a field */
function shown({ unit, ...figures }, nameOf, entered) {
  const show = (name, value) => {
    if (name === 'of') return nameOf(value);
    if (name === 'stage') return texts.seedStages[value];
    if (name === 'needed' || name === 'role') return texts.roleNames[value];
    if (MOMENTS.includes(name)) return moment(value, LONG_AGO);
    if (Array.isArray(value)) return value.join(', ');
    if (typeof value !== 'number') return value;
    if (!MEASURED.includes(name)) return plain(value);
    const text = amount(value, unit, entered);
    const hasUnit = unit || entered === 'percent';
    return name === 'least' && hasUnit && figures.most !== undefined ? text.slice(0, text.lastIndexOf(' ')) : text;
  };
  return Object.fromEntries(Object.entries(figures).map(([name, value]) => [name, show(name, value)]));
}

/** The name of a field without its label; of `cold.limit`, `limit`. */
const named = (field) => texts.fieldNames[field] ?? texts.fieldNames[field.split('.').pop()] ?? field;

/**
 * @param problem of the service: detail, field, rule, figures, entry
 * @param labelOf the label of a field in the form; undefined if there is none
 * @param entered how the form takes the field, if not as readers see it elsewhere: `percent` for a fraction, `celsius`
 *     for a temperature that is in °C also for readers in °F
 */
export function refusalWords({ detail, field = '', rule, figures, entry }, labelOf = () => undefined, entered = '') {
  const words = texts.rules[rule];
  if (!words) return detail && localTimes(detail, now());
  const nameOf = (name) => labelOf(name) ?? named(name);
  const sentence = words(nameOf(field), shown(figures ?? {}, nameOf, entered));
  return entry
    ? `${texts.becauseOfThis(texts.entryKinds[entry.kind], moment(entry.at, LONG_AGO))} ${sentence}`
    : sentence;
}
