// Germination against heat in words: what a fit says, when the next come, whether heat or days count. Pure.

import { leftOutOfHeat } from '../shared/fault-words.js';
import { UNKNOWN, count, differenceToUnit, number, toUnit, unitName } from '../shared/format.js';

export const known = (value) => value !== null && value !== undefined;

/** Degree-hours to three digits: no fit is surer than that. */
export function heatNumber(value) {
  if (!known(value)) return UNKNOWN;
  const shown = differenceToUnit(value);
  const digits = Math.abs(shown) < 100 && !Number.isInteger(shown) ? 1 : 0;
  return number(Math.abs(shown) < 1000 ? shown : Number(shown.toPrecision(3)), digits);
}

export const heatUnit = () => `${unitName()}·h`;
export const heat = (value) => `${heatNumber(value)} ${heatUnit()}`;

/** A temperature with a digit only where it has one. */
export function degrees(celsius) {
  const shown = toUnit(celsius);
  return `${number(shown, Math.abs(shown - Math.round(shown)) < 0.05 ? 0 : 1)} ${unitName()}`;
}

/** Above which temperature heat counts, and up to which. */
export const aboveWords = ({ base, ceiling }) =>
  `above ${degrees(base)}${known(ceiling) ? `, no more than at ${degrees(ceiling)}` : ''}`;

/** A 95 % interval whose ends may be open. */
export function intervalText(interval, say, unit = '') {
  const [low, high] = interval ?? [null, null];
  if (known(low) && known(high)) return `95 %: ${say(low)} to ${say(high)}${unit}`;
  if (known(low)) return `95 %: ${say(low)}${unit} or more, with no upper end`;
  return known(high) ? `95 %: ${say(high)}${unit} or less, with no lower end` : 'its interval is open at both ends';
}

const percent = (fraction) => number(fraction * 100);

/** For how long the heat of a sowing left readings out, over the group with the most; empty if none. */
export function leftOutOfCourse({ rows }) {
  const words = leftOutOfHeat(Math.max(0, ...rows.map(({ from, to }) => (to ?? from).leftOutHours)));
  return words ? `Readings of up to ${words}.` : '';
}

/** What the counts of one sowing say about the heat that its seeds needed. `watched`: heat at the last check. */
export function fitWords({ base, fit }, watched) {
  if (!fit.identified)
    return {
      headline: 'Not known yet: the heat that half of the seeds need.',
      lines: [sentence(fit.reason)].filter(Boolean),
    };
  const beyond = fit.medianHeat > watched;
  const headline = `Half of those that ${beyond ? 'ever germinate would need' : 'germinated needed'} ${heat(fit.medianHeat)} above ${degrees(base)} (${intervalText(fit.medianInterval, heatNumber)}).`;
  const lines = [
    beyond && `This is an extrapolation: the seeds have received ${heat(watched)} so far.`,
    known(fit.heatForTenth) &&
      `The first tenth of them ${fit.heatForTenth > watched ? 'would need' : 'needed'} ${heat(fit.heatForTenth)}.`,
    fit.note ? sentence(fit.note) : finalWords(fit),
  ];
  return { headline, lines: lines.filter(Boolean) };
}

/** Where the fraction was not fitted, it was taken for granted. */
function finalWords({ finalFraction, finalFractionInterval }) {
  if (!known(finalFraction)) return '';
  if (!finalFractionInterval && finalFraction === 1) return 'Assumption: every seed germinates in the end.';
  return `In the end ${percent(finalFraction)} % germinate (${intervalText(finalFractionInterval, percent, ' %')}).`;
}

/** A reason of the service as a sentence of its own. */
export function sentence(words) {
  const text = (words ?? '').trim();
  return text === '' ? '' : `${text[0].toUpperCase()}${text.slice(1)}${/[.!?]$/.test(text) ? '' : '.'}`;
}

/** Where there is a verdict, the base is said in the reader's unit; where there is none, the service says why. */
function verdict({ verdict: found, verdictWords, base }) {
  if (found === 'heat') return `The counts follow the heat above ${degrees(base)} better than the days.`;
  if (found === 'clock') return `The counts follow the days better than the heat above ${degrees(base)}.`;
  return sentence(verdictWords);
}

/** The verdict over all sowings of a species, and its figures as rows of name and value. */
export function thermalTimeWords(result) {
  const rows = [
    [
      'Seeds',
      `${number(result.germinated)} germinated of ${number(result.seeds)}, in ${count(result.sowings.length, 'sowing')}`,
    ],
  ];
  const { heatModel, clockModel } = result;
  if (heatModel)
    rows.push([
      'By heat',
      `half by ${heat(heatModel.medianHeat)} above ${degrees(result.base)} (${intervalText(heatModel.medianInterval, heatNumber)})`,
    ]);
  if (clockModel)
    rows.push([
      'By days',
      known(clockModel.medianDays)
        ? `half by day ${number(clockModel.medianDays, 1)}`
        : 'half only far beyond the days that were watched',
    ]);
  if (heatModel?.note) rows.push(['Assumed for heat', heatModel.note]);
  if (clockModel?.note) rows.push(['Assumed for days', clockModel.note]);
  if (heatModel && clockModel)
    rows.push(['Fit (AIC, lower is better)', `heat ${number(heatModel.aic, 1)}, days ${number(clockModel.aic, 1)}`]);
  rows.push(
    ['Base temperature by likelihood', baseWords(result.baseByLikelihood)],
    ['Base temperature by regression', baseWords(result.baseByRegression)],
  );
  return { headline: verdict(result), rows };
}

const CANNOT = 'cannot be estimated from these data';

/** Base temperatures are known to half a degree at best: one digit. */
function baseWords({ identified, base, interval, reason }) {
  const bare = (celsius) => number(toUnit(celsius), 1);
  if (!identified || !known(base)) return !reason ? CANNOT : `${CANNOT}: ${reason}`;
  return `${bare(base)} ${unitName()} (${intervalText(interval, bare)})`;
}

/** Why the heat cannot be shown, from what went wrong with the call. */
export function noHeatWords(problem) {
  if (problem.status === 404) return 'This service cannot tell the heat of these seeds.';
  if (problem.unreachable)
    return 'The heat is not available now, because the readings cannot be read. Open this part again to retry.';
  return `The heat cannot be shown: ${problem.message}`;
}
