// Reasons of the service in the reader's language, from their codes and figures: why to check then, why there is no
// forecast, no verdict, no base temperature, no curve of keeping. Pure.

import { count, differenceToUnit, number, unitName } from '../shared/format.js';
import { pluralOf } from '../shared/language.js';
import { NO_FIT } from './no-fit.js';
import { texts } from './texts.js';

/** As many digits as it has, one at most. */
const plain = (value) => number(value, Number.isInteger(value) ? 0 : 1);
const inDays = (days) => `${plain(days)} ${pluralOf(days, texts.dayCount)}`;

export const NEXT_CHECK = {
  'week-after-check': () => texts.weekAfterCheck,
  'week-after-sowing': () => texts.weekAfterSowing,
  'pot-on': ({ germinated, rootCm }) =>
    rootCm === undefined ? texts.potOn(number(germinated)) : texts.potOnWithRoots(number(germinated), plain(rootCm)),
  'usual-days': ({ days }) => texts.usuallyAfterDays(inDays(days)),
  'expected-days': ({ days }) => texts.expectedAfterDays(inDays(Math.round(days))),
  'check-mould': ({ days }) => texts.butCheckForMould(inDays(days)),
  'days-over': ({ days }) => texts.usualDaysOver(inDays(days)),
  'give-up': ({ days }) => texts.usuallyGivenUp(inDays(days)),
};

/** Each part of the reason in words; null if a code is not known. */
function joined(table, reasons) {
  const words = (reasons ?? []).map(({ code, figures }) => table[code]?.(figures));
  return words.length === 0 || words.some((one) => one === undefined) ? null : words.join('');
}

/** Why to check then. */
export const checkWhy = (nextCheck) => joined(NEXT_CHECK, nextCheck.because) ?? nextCheck.why;

export const NO_FORECAST = {
  'no-seeds': texts.noSoundSeedsRemain,
  unmeasured: NO_FIT.unmeasured,
  'no-heat': NO_FIT['no-heat'],
  'too-few': texts.tooFewForTheHeat,
  'unmeasured-day': texts.lastDayHardlyMeasured,
  'hardly-warmer': texts.hardlyEverWarmer,
  unlikely: texts.lessThanATenth,
};

/** Why some groups, or all, have no forecast by heat; empty where all have one. */
export function noForecastWords({ noForecast, noForecastFor }) {
  const words = (noForecastFor ?? []).map(({ code, groups }) =>
    NO_FORECAST[code] ? [groups.join(', '), NO_FORECAST[code]].filter(Boolean).join(': ') : null,
  );
  return words.length === 0 || words.includes(null) ? (noForecast ?? '') : words.join('; ');
}

export const CANNOT_BE_TOLD = {
  'one-group': texts.onlyOneGroup,
  'same-heat': texts.nearlyTheSameHeat,
  'uncertain-heat': texts.heatTooUncertain,
  'equal-fits': texts.bothModelsFit,
  ...NO_FIT,
};

/** Why heat and days cannot be told apart. */
export const cannotBeToldWords = ({ verdictCode, verdictWords }) =>
  CANNOT_BE_TOLD[verdictCode] ? texts.heatOrDaysNotShown(CANNOT_BE_TOLD[verdictCode]) : verdictWords;

export const NO_BASE = {
  unidentified: () => texts.noBaseUnidentified,
  'every-base': () => texts.noBaseEvery,
  'range-end': () => texts.noBaseRangeEnd,
  'too-cold': () => texts.noBaseTooCold,
};

export const NO_LINE = {
  'few-temperatures': ({ needed, apart, found }) =>
    texts.fewTemperatures(number(needed), `${plain(differenceToUnit(apart))} ${unitName()}`, number(found)),
  'no-rise': () => texts.rateDoesNotRise,
};

/** Why a base temperature cannot be estimated; null without a reason. */
export const noBaseWords = ({ reason, reasonCode, because }) =>
  NO_BASE[reasonCode]?.() ?? NO_LINE[because?.code]?.(because.figures) ?? reason;

export const NO_CURVE = {
  'few-sowings': ({ neededSowings, neededDays, sowings, days }) =>
    texts.fewSowings(number(neededSowings), number(neededDays), number(sowings), number(days)),
  'no-slope': () => texts.noSlope,
  'no-fall': () => texts.noFall,
};

/** Why how long seed keeps cannot be estimated. */
export const noCurveWords = ({ reason, because }) => NO_CURVE[because?.code]?.(because.figures) ?? reason;

/** Why a fit assumes that every seed germinates; null where it does not. */
export function noteWords({ note, noteCode, noteEndsOnly }) {
  if (!NO_FIT[noteCode]) return note ?? null;
  return (noteEndsOnly ? texts.assumedForEnds : texts.assumedEverySeed)(NO_FIT[noteCode]);
}

/** What the prospect of a sowing takes for granted. */
export const prospectAssumption = ({ assumption, pastSowings }) =>
  pastSowings === undefined
    ? texts.assumed(assumption)
    : texts.prospectAssumes +
      (pastSowings === 0 ? texts.onlyTheseCounts : texts.pastSowingsToo(count(pastSowings, texts.sowingCount)));
