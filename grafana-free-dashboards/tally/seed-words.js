// Seeds in words: fractions with their intervals, what may still come, what a comparison can tell. Pure.

import { UNKNOWN, count, number } from '../shared/format.js';
import { texts } from './texts.js';
import { prospectAssumption } from './why-words.js';

const Z95 = 1.959963984540054;
export const CULL_REASONS = {
  mould: texts.mould,
  dead: texts.dead,
  empty: texts.empty,
  eaten: texts.eaten,
  taken: texts.takenOut,
  other: texts.other,
};
export const COMMON_GIVE_UP_DAYS = 42;

/** The 95 % interval of a fraction after Wilson (JASA 22, 1927, 209-212). */
/** The number of a group, with its name if it has one. */
export const groupName = ({ id, name }) => (name ? texts.groupWithName(id, name) : id);

export function wilson(germinated, sown) {
  const p = germinated / sown;
  const z2 = Z95 * Z95;
  const middle = (p + z2 / (2 * sown)) / (1 + z2 / sown);
  const half = (Z95 / (1 + z2 / sown)) * Math.sqrt((p * (1 - p)) / sown + z2 / (4 * sown * sown));
  return [Math.max(0, middle - half), Math.min(1, middle + half)];
}

/** A percentage to the whole, finer only next to none and to all. */
function points(fraction) {
  const percent = fraction * 100;
  const fine = (percent >= 0.05 && percent < 1) || (percent > 99 && percent <= 99.95);
  return number(percent, fine ? 1 : 0);
}

export const intervalWords = ([low, high]) => texts.n95To3(points(low), points(high));
export const fractionWords = (fraction, interval) => `${points(fraction)} % (${intervalWords(interval)})`;
export const countWords = (germinated, sown) => fractionWords(germinated / sown, wilson(germinated, sown));

export const dayWords = (days) =>
  days === null || days === undefined
    ? UNKNOWN
    : texts.day2(number(days, days < 10 && !Number.isInteger(days) ? 1 : 0));
const spanWords = ([low, high]) => texts.toDays(number(low, 1), number(high, 1));

/** When a check is due, from now on; whole days, as a grower plans. */
export function dueWords(at, now) {
  const days = Math.round((Date.parse(at) - now) / 86_400_000);
  if (days < -1) return texts.checkOverdueByDays(-days);
  if (days < 0) return texts.checkOverdueByADay;
  if (days === 0) return texts.checkDueToday;
  return days === 1 ? texts.checkDueTomorrow : texts.checkDueInDays(days);
}

/** How many seeds nobody looked at yet; they are neither failures nor successes. */
export const notLookedAtWords = (seeds) => (seeds > 0 ? texts.notLookedAtYet(count(seeds, texts.seedCount)) : '');

/** Of the seeds that were looked at, how many germinated. */
export function germinatedWords({ germinated, sown, notLookedAt }) {
  const looked = sown - notLookedAt;
  if (looked === 0) return texts.sownNotLookedAtYet(count(sown, texts.seedCount));
  const others = notLookedAt > 0 ? `; ${notLookedAtWords(notLookedAt)}` : '';
  return texts.ofGerminated(number(germinated), number(looked), countWords(germinated, looked), others);
}

/** When to stop: a headline, its figures, and the assumption. */
export function prospectWords({ prospect, remaining, day, giveUpDays }) {
  const usual = giveUpDays
    ? texts.theSpeciesProfileGivesUp(count(giveUpDays, texts.dayCount), dayWords(Math.floor(day)))
    : texts.commonPracticeIsToGive(dayWords(Math.floor(day)));
  if (remaining === 0) return { headline: texts.doneNoSoundUngerminatedSeed, lines: [] };
  if (!prospect) {
    return {
      headline: texts.theCountsCannotTellYet,
      lines: [texts.tooFewGerminatedSoFar, usual],
    };
  }
  const { soon, soonLimits, ever, everLimits, expectedMore, notLookedAt } = prospect;
  return {
    headline: prospectHeadline(prospect),
    lines: [
      texts.atLeastOneMoreWithin(chance(soon), intervalWords(soonLimits)),
      texts.atLeastOneMoreEver(
        chance(ever),
        intervalWords(everLimits),
        number(expectedMore, expectedMore < 10 ? 1 : 0),
        number(remaining),
        notLookedAt > 0 ? texts.withThoseAmongThe(notLookedAtWords(notLookedAt)) : '',
      ),
      usual,
    ],
    assumption: prospectAssumption(prospect),
  };
}

const chance = (p) => (p > 0.99 ? texts.over99 : p < 0.01 ? texts.under1 : `${number(p * 100)} %`);

function prospectHeadline({ soon, ever, everLimits }) {
  if (everLimits[1] < 0.1) return texts.youCanStopItIs;
  if (soon >= 0.5) return texts.goOnMoreAreLikely;
  if (ever >= 0.5) return texts.goOnIfYouHave;
  return everLimits[1] > 0.5 ? texts.openTheCountsLeaveIt : texts.moreArePossibleButNot;
}

/** The measures that a grower asks for first, in words; times of a check are late by up to the interval. */
export function measureRows({ measures, checks }) {
  const days = (value) => (value === null ? UNKNOWN : texts.days(number(value, 1)));
  return [
    [texts.firstGerminated, measures.firstTime === null ? UNKNOWN : texts.foundOn(dayWords(measures.firstTime))],
    [
      texts.meanGerminationTime,
      measures.meanBetween === null
        ? UNKNOWN
        : texts.betweenTheChecksByThe(spanWords(measures.meanBetween), days(measures.meanTime)),
    ],
    [texts.halfOfThoseGerminated, days(measures.halfTimeCoolbear)],
    [
      texts.halfOfThoseSown,
      measures.halfOfSownBetween !== null
        ? spanWords(measures.halfOfSownBetween)
        : checks.length > 0
          ? texts.notReached
          : UNKNOWN,
    ],
  ];
}

/** Indices need two checks and a day: minutes after sowing they are huge and say nothing. */
export const hasIndices = (checks) => checks.length >= 2 && Math.max(...checks.map((check) => check.day)) >= 1;

/** The indices of the literature. */
export function indexRows(measures) {
  return [
    [
      texts.spreadStandardDeviation,
      measures.variance === null ? UNKNOWN : texts.days(number(Math.sqrt(measures.variance), 1)),
    ],
    [texts.speedMaguire, texts.seedsADay(number(measures.speed, 2))],
    [texts.rateIndex, texts.aDay2(number(measures.rateIndexPercent, 2))],
    [texts.synchrony0To1, measures.synchrony === null ? UNKNOWN : number(measures.synchrony, 2)],
  ];
}
