// Words for days entered by hand, and reading the form for one. Pure.

import * as f from '../shared/format.js';
import { typedNumber } from '../shared/typed.js';
import { texts } from './texts.js';

/** The estimated heat, and how far estimates were off on days that were also measured. */
export function extremesSummary(answer) {
  if (answer.days.length === 0) return texts.forTimeBeforeTheSensors;
  const apart =
    answer.unmeasuredDays > 0
      ? texts.aboutInWithoutReadingsAn(f.degreeHours(answer.unmeasured), f.count(answer.unmeasuredDays, texts.dayCount))
      : texts.everyDayEnteredWasMeasured;
  return `${apart}${comparison(answer)}`;
}

function comparison({ bothDays, meanDifference }) {
  if (bothDays === 0) return '';
  const over = texts.withBoth(f.count(bothDays, texts.dayCount));
  if (Math.abs(meanDifference) < 0.05) return texts.onTheEstimateEqualsThe(over);
  return texts.onTheEstimateIsA(
    over,
    f.degreeHours(Math.abs(meanDifference)),
    meanDifference > 0 ? texts.tooHigh : texts.tooLow,
  );
}

/** Reads the typed temperatures in the unit shown, and returns them in °C. A comma is a decimal point too. */
export function readExtremes(typed) {
  const problems = [];
  const read = (name, title) => {
    const raw = typed[name] ?? '';
    const value = raw.trim() === '' ? NaN : typedNumber(raw);
    if (Number.isNaN(value)) problems.push(texts.enterANumberSuchAs(title, f.number(f.toUnit(21.5), 1)));
    return f.fromUnit(value);
  };
  const min = read('min', texts.lowest);
  const max = read('max', texts.highest);
  if (problems.length === 0 && min > max) problems.push(texts.theLowestTemperatureIsAbove);
  if (!/^\d{4}-\d{2}-\d{2}$/.test(typed.day ?? '')) problems.unshift(texts.dayChooseADate);
  return { day: typed.day, body: { min, max }, problems };
}
