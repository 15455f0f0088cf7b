// Seeds in words: fractions with their intervals, what may still come, what a comparison can tell. Pure.

import { UNKNOWN, count, number } from '../shared/format.js';

const Z95 = 1.959963984540054;
export const CULL_REASONS = {
  mould: 'mould',
  dead: 'dead',
  empty: 'empty',
  eaten: 'eaten',
  taken: 'taken out',
  other: 'other',
};
export const COMMON_GIVE_UP_DAYS = 42;

/** The 95 % interval of a fraction after Wilson (JASA 22, 1927, 209-212). */
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

export const intervalWords = ([low, high]) => `95 %: ${points(low)} to ${points(high)} %`;
export const fractionWords = (fraction, interval) => `${points(fraction)} % (${intervalWords(interval)})`;
export const countWords = (germinated, sown) => fractionWords(germinated / sown, wilson(germinated, sown));

export const dayWords = (days) =>
  days === null || days === undefined ? UNKNOWN : `day ${number(days, days < 10 && !Number.isInteger(days) ? 1 : 0)}`;
const spanWords = ([low, high]) => `${number(low, 1)} to ${number(high, 1)} days`;

/** When a check is due, from now on; whole days, as a grower plans. */
export function dueWords(at, now) {
  const days = Math.round((Date.parse(at) - now) / 86_400_000);
  if (days < -1) return `check overdue by ${-days} days`;
  if (days < 0) return 'check overdue by a day';
  if (days === 0) return 'check due today';
  return days === 1 ? 'check due tomorrow' : `check due in ${days} days`;
}

/** How many seeds nobody looked at yet; they are neither failures nor successes. */
export const notLookedAtWords = (seeds) => (seeds > 0 ? `${count(seeds, 'seed')} not looked at yet` : '');

/** Of the seeds that were looked at, how many germinated. */
export function germinatedWords({ germinated, sown, notLookedAt }) {
  const looked = sown - notLookedAt;
  if (looked === 0) return `${count(sown, 'seed')} sown, not looked at yet`;
  const others = notLookedAt > 0 ? `; ${notLookedAtWords(notLookedAt)}` : '';
  return `${number(germinated)} of ${number(looked)} germinated: ${countWords(germinated, looked)}${others}`;
}

/** When to stop: a headline, its figures, and the assumption. */
export function prospectWords({ prospect, remaining, day, giveUpDays }) {
  const usual = giveUpDays
    ? `The species profile gives up after ${number(giveUpDays)} days; this is ${dayWords(Math.floor(day))}.`
    : `Common practice is to give up after about six weeks; this is ${dayWords(Math.floor(day))}.`;
  if (remaining === 0) return { headline: 'Done: no sound ungerminated seed is left.', lines: [] };
  if (!prospect) {
    return {
      headline: 'The counts cannot tell yet whether more will come.',
      lines: ['Too few germinated so far, or the checks do not show yet that it levels off.', usual],
    };
  }
  const { soon, soonLimits, ever, everLimits, expectedMore, notLookedAt } = prospect;
  return {
    headline: prospectHeadline(prospect),
    lines: [
      `At least one more within a week of the last check: ${chance(soon)} (${intervalWords(soonLimits)}).`,
      `At least one more ever: ${chance(ever)} (${intervalWords(everLimits)}); about ${number(expectedMore, expectedMore < 10 ? 1 : 0)} more to be expected of ${number(remaining)} left${notLookedAt > 0 ? `, with those among the ${notLookedAtWords(notLookedAt)}` : ''}.`,
      usual,
    ],
    assumption: `Assumed: ${prospect.assumption}`,
  };
}

const chance = (p) => (p > 0.99 ? 'over 99 %' : p < 0.01 ? 'under 1 %' : `${number(p * 100)} %`);

function prospectHeadline({ soon, ever, everLimits }) {
  if (everLimits[1] < 0.1) return 'You can stop: it is unlikely that any more will come.';
  if (soon >= 0.5) return 'Go on: more are likely within a week.';
  if (ever >= 0.5) return 'Go on if you have the patience: more are likely, but hardly within a week.';
  return everLimits[1] > 0.5
    ? 'Open: the counts leave it uncertain whether more will come.'
    : 'More are possible but not likely: go on or stop, as you like.';
}

/** The measures that a grower asks for first, in words; times of a check are late by up to the interval. */
export function measureRows(measures) {
  const days = (value) => (value === null ? UNKNOWN : `${number(value, 1)} days`);
  return [
    ['First germinated', measures.firstTime === null ? UNKNOWN : `found on ${dayWords(measures.firstTime)}`],
    [
      'Mean germination time',
      measures.meanBetween === null
        ? UNKNOWN
        : `${spanWords(measures.meanBetween)}, between the checks (${days(measures.meanTime)} by the day of the check)`,
    ],
    ['Half of those germinated', days(measures.halfTimeCoolbear)],
    ['Half of those sown', measures.halfOfSownBetween === null ? 'not reached' : spanWords(measures.halfOfSownBetween)],
  ];
}

/** Indices need two checks and a day: minutes after sowing they are huge and say nothing. */
export const hasIndices = (checks) => checks.length >= 2 && Math.max(...checks.map((check) => check.day)) >= 1;

/** The indices of the literature. */
export function indexRows(measures) {
  return [
    [
      'Spread (standard deviation)',
      measures.variance === null ? UNKNOWN : `${number(Math.sqrt(measures.variance), 1)} days`,
    ],
    ['Speed (Maguire)', `${number(measures.speed, 2)} seeds a day`],
    ['Rate index', `${number(measures.rateIndexPercent, 2)} % a day`],
    ['Synchrony (0 to 1)', measures.synchrony === null ? UNKNOWN : number(measures.synchrony, 2)],
  ];
}
