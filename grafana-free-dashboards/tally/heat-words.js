// Germination against heat in words: what a fit says, when the next come, whether heat or days count. Pure.

import { leftOutOfHeat } from '../shared/fault-words.js';
import { UNKNOWN, count, differenceToUnit, number, toUnit, unitName } from '../shared/format.js';
import { noFitWords } from './no-fit.js';
import { texts } from './texts.js';
import { cannotBeToldWords, noBaseWords, noteWords } from './why-words.js';

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
  texts.above(degrees(base), known(ceiling) ? texts.noMoreThanAt(degrees(ceiling)) : '');

/** A 95 % interval whose ends may be open. */
export function intervalText(interval, say, unit = '') {
  const [low, high] = interval ?? [null, null];
  if (known(low) && known(high)) return texts.n95To2(say(low), say(high), unit);
  if (known(low)) return texts.n95OrMoreWithNo(say(low), unit);
  return known(high) ? texts.n95OrLessWithNo(say(high), unit) : texts.itsIntervalIsOpenAt;
}

const percent = (fraction) => number(fraction * 100);

/** For how long the heat of a sowing left readings out, over the group with the most; empty if none. */
export function leftOutOfCourse({ rows }) {
  const words = leftOutOfHeat(Math.max(0, ...rows.map(({ from, to }) => (to ?? from).leftOutHours)));
  return words ? texts.readingsOfUpTo(words) : '';
}

/** What the counts of one sowing say about the heat that its seeds needed. `watched`: heat at the last check. */
export function fitWords({ base, fit }, watched) {
  if (!fit.identified)
    return {
      headline: texts.notKnownYetTheHeat,
      lines: [sentence(noFitWords(fit))].filter(Boolean),
    };
  const beyond = fit.medianHeat > watched;
  const headline = texts.halfOfThoseThatAbove(
    beyond ? texts.everGerminateWouldNeed : texts.germinatedNeeded,
    heat(fit.medianHeat),
    degrees(base),
    intervalText(fit.medianInterval, heatNumber),
  );
  const lines = [
    beyond && texts.thisIsAnExtrapolationThe(heat(watched)),
    known(fit.heatForTenth) &&
      texts.theFirstTenthOfThem(fit.heatForTenth > watched ? texts.wouldNeed : texts.needed, heat(fit.heatForTenth)),
    fit.note ? sentence(noteWords(fit)) : finalWords(fit),
  ];
  return { headline, lines: lines.filter(Boolean) };
}

/** Where the fraction was not fitted, it was taken for granted. */
function finalWords({ finalFraction, finalFractionInterval }) {
  if (!known(finalFraction)) return '';
  if (!finalFractionInterval && finalFraction === 1) return texts.assumptionEverySeedGerminates;
  return texts.inTheEndGerminate(percent(finalFraction), intervalText(finalFractionInterval, percent, ' %'));
}

/** A reason of the service as a sentence of its own. */
export function sentence(words) {
  const text = (words ?? '').trim();
  return text === '' ? '' : `${text[0].toUpperCase()}${text.slice(1)}${/[.!?]$/.test(text) ? '' : '.'}`;
}

/** Where there is a verdict, the base is said in the reader's unit; where there is none, the reason stands there. */
function verdict(result) {
  const { verdict: found, base } = result;
  if (found === 'heat') return texts.theCountsFollowTheHeat(degrees(base));
  if (found === 'clock') return texts.theCountsFollowTheDays(degrees(base));
  return sentence(cannotBeToldWords(result));
}

/** The verdict over all sowings of a species, and its figures as rows of name and value. */
export function thermalTimeWords(result) {
  const rows = [
    [
      texts.seeds,
      texts.germinatedOfIn(
        number(result.germinated),
        number(result.seeds),
        count(result.sowings.length, texts.sowingCount),
      ),
    ],
  ];
  const { heatModel, clockModel } = result;
  if (heatModel)
    rows.push([
      texts.byHeat,
      texts.halfByAbove(
        heat(heatModel.medianHeat),
        degrees(result.base),
        intervalText(heatModel.medianInterval, heatNumber),
      ),
    ]);
  if (clockModel)
    rows.push([
      texts.byDays,
      known(clockModel.medianDays) ? texts.halfByDay(number(clockModel.medianDays, 1)) : texts.halfOnlyFarBeyondThe,
    ]);
  if (heatModel?.note) rows.push([texts.assumedForHeat, noteWords(heatModel)]);
  if (clockModel?.note) rows.push([texts.assumedForDays, noteWords(clockModel)]);
  if (heatModel && clockModel)
    rows.push([texts.fitAicLowerIsBetter, texts.heatDays(number(heatModel.aic, 1), number(clockModel.aic, 1))]);
  rows.push(
    [texts.baseTemperatureByLikelihood, baseWords(result.baseByLikelihood)],
    [texts.baseTemperatureByRegression, baseWords(result.baseByRegression)],
  );
  return { headline: verdict(result), rows };
}

const CANNOT = texts.cannotBeEstimatedFromThese;

/** Base temperatures are known to half a degree at best: one digit. */
function baseWords(found) {
  const { identified, base, interval } = found;
  const reason = noBaseWords(found);
  const bare = (celsius) => number(toUnit(celsius), 1);
  if (!identified || !known(base)) return !reason ? CANNOT : `${CANNOT}: ${reason}`;
  return `${bare(base)} ${unitName()} (${intervalText(interval, bare)})`;
}

/** Why the heat cannot be shown, from what went wrong with the call. */
export function noHeatWords(problem) {
  if (problem.status === 404) return texts.thisServiceCannotTellThe;
  if (problem.unreachable) return texts.theHeatIsNotAvailable;
  return texts.theHeatCannotBeShown(problem.message);
}
