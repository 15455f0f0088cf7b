// Why the service refused a field, by the rule that it broke. Other refusals come as sentences of the service. Pure.

import { number } from './format.js';
import { moment } from './time-format.js';
import { texts } from './texts.js';

/** As many digits as it has, three at most. */
const plain = (value) => number(value, [0, 1, 2].find((digits) => Number(value.toFixed(digits)) === value) ?? 3);

export const RULES = {
  missing: (field) => texts.isMissing(field),
  'too-long': (field, { most }) => texts.hasAtMost(field, plain(most)),
  length: (field, { most }) => texts.hasOneTo(field, plain(most)),
  whole: (field, { least, most }) => texts.isWholeFromTo(field, plain(least), plain(most)),
  range: (field, { least, most, unit }) => texts.isBetween(field, plain(least), `${plain(most)} ${unit}`.trim()),
  number: (field, { value }) => texts.isANumberNot(field, value),
  instant: (field, { value }) => texts.isATimeNot(field, value),
  // Told from 1970, a moment has its day and year, as the field has them.
  future: (field, { now }) => texts.isNotInTheFuture(field, moment(now, 0)),
  order: () => texts.endBeforeStart,
};

/** @param problem of the service: detail, field, rule, figures */
export function refusalWords({ detail, field, rule, figures }) {
  const words = RULES[rule];
  return words && field ? words(texts.fieldNames[field] ?? field, figures ?? {}) : detail;
}
