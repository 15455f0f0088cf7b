// Words for days entered by hand, and reading the form for one. Pure.

import * as f from '../shared/format.js';
import { typedNumber } from '../shared/typed.js';

/** The estimated heat, and how far estimates were off on days that were also measured. */
export function extremesSummary(answer) {
  if (answer.days.length === 0)
    return 'For time before the sensors: enter the lowest and highest temperature of each day. The heat is estimated and shown here alone.';
  const apart =
    answer.unmeasuredDays > 0
      ? `About ${f.degreeHours(answer.unmeasured)} in ${f.count(answer.unmeasuredDays, 'day')} without readings: an estimate, not part of “Heat so far”.`
      : 'Every day entered was measured too.';
  return `${apart}${comparison(answer)}`;
}

function comparison({ bothDays, meanDifference }) {
  if (bothDays === 0) return '';
  const over = `${f.count(bothDays, 'day')} with both`;
  if (Math.abs(meanDifference) < 0.05) return ` On ${over}, the estimate equals the measured heat.`;
  return ` On ${over}, the estimate is ${f.degreeHours(Math.abs(meanDifference))} a day ${meanDifference > 0 ? 'too high' : 'too low'} on average.`;
}

/** Reads the typed temperatures in the unit shown, and returns them in °C. A comma is a decimal point too. */
export function readExtremes(typed) {
  const problems = [];
  const read = (name, title) => {
    const raw = typed[name] ?? '';
    const value = raw.trim() === '' ? NaN : typedNumber(raw);
    if (Number.isNaN(value)) problems.push(`${title}: enter a number, such as ${f.number(f.toUnit(21.5), 1)}.`);
    return f.fromUnit(value);
  };
  const min = read('min', 'Lowest');
  const max = read('max', 'Highest');
  if (problems.length === 0 && min > max) problems.push('The lowest temperature is above the highest. Check both.');
  if (!/^\d{4}-\d{2}-\d{2}$/.test(typed.day ?? '')) problems.unshift('Day: choose a date.');
  return { day: typed.day, body: { min, max }, problems };
}
