// Seeds in words: fractions with their intervals, what may still come, what a comparison can tell. Pure.

import { count, number, UNKNOWN } from '../shared/format.js';

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

/** When to stop: a headline, what it rests on, and the assumption. */
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
    assumption: `Taken for granted: ${prospect.assumption}`,
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

/** What two sowings tell of each other, and what they do not. */
export function comparisonWords({ a, b, difference, logRank }, names) {
  if (!difference) {
    const unseen = [a, b].map((side, i) => (side.fraction.sown === 0 ? names[i] : null)).filter(Boolean);
    return {
      headline: 'Nothing to compare yet.',
      lines: [`Nobody has looked at the seeds of ${unseen.join(' and ')}.`],
    };
  }
  const [low, high] = difference.newcombe;
  const apart = low > 0 || high < 0;
  const lines = [
    sideWords(a, names[0]),
    sideWords(b, names[1]),
    `The first less the second: ${signedPoints(difference.difference)} percentage points; ` +
      `anything from ${signedPoints(low)} to ${signedPoints(high)} fits these counts (95 %, Newcombe). Fisher's exact test: p = ${pWords(difference.fisherP)}.`,
  ];
  const needed = difference.seedsEachForPower80;
  if (needed === null) lines.push('Both fractions are the same so far; that is no proof that the two are alike.');
  else
    lines.push(
      `To find a difference of this size in four of five trials, each would need about ${count(needed, 'seed')}; they had ${number(a.fraction.sown)} and ${number(b.fraction.sown)}.`,
    );
  if (logRank) lines.push(`Pace and final fraction together (log-rank on intervals): p = ${pWords(logRank.p)}.`);
  if (a.remaining > 0 || b.remaining > 0) {
    lines.push(
      `Not over yet: ${number(a.remaining)} and ${number(b.remaining)} seeds still sound, watched until ${dayWords(watchedUntil(a))} and ${dayWords(watchedUntil(b))} on average. ` +
        'A sowing that was watched for longer had more time.',
    );
  }
  return { headline: comparisonHeadline(difference, apart, names, { a, b }), lines };
}

const watchedUntil = ({ remainingWatchedDays, lastCheckDay }) => remainingWatchedDays ?? lastCheckDay;

function sideWords({ fraction, notLookedAt }, name) {
  const others = notLookedAt > 0 ? `; ${notLookedAtWords(notLookedAt)}` : '';
  return `${name}: ${number(fraction.germinated)} of ${number(fraction.sown)}, ${fractionWords(fraction.fraction, fraction.wilson)}${others}.`;
}

function comparisonHeadline(difference, apart, names, { a, b }) {
  if (apart)
    return `${names[difference.difference > 0 ? 0 : 1]} did better, by more than luck alone would make likely.`;
  const needed = difference.seedsEachForPower80;
  const few = needed === null || needed > 2 * Math.min(a.fraction.sown, b.fraction.sown);
  return few
    ? 'These two say almost nothing about which is better.'
    : 'These two do not tell for sure which is better.';
}

const signedPoints = (value) => `${value > 0 ? '+' : ''}${number(value * 100, Math.abs(value) < 0.1 ? 1 : 0)}`;

/** Whether the groups of a sowing differ by more than chance allows; null where there is nothing to compare. */
export function replicateWords(told) {
  if (!told) return null;
  const { replicates, p, exact, differ, range, toleratedRange, interval, fraction, germinated, sown } = told;
  const lines = [
    `Best and worst group are ${number(range * 100)} percentage points apart.`,
    toleratedRange !== null &&
      `Seed testing tolerates ${number(toleratedRange * 100)} points for ${count(replicates, 'group')} of this size.`,
    `Chance alone makes groups differ at least so much with p = ${pWords(p)} (${exact ? 'exact' : 'χ²'} test).`,
  ];
  if (differ)
    lines.push(
      `All groups together: ${number(germinated)} of ${number(sown)}, ${fractionWords(fraction, interval)} when their differences are allowed for.`,
    );
  else
    lines.push(
      germinated === 0 || germinated === sown
        ? 'With all or none germinated, nothing could have shown a difference.'
        : 'Small differences can stay unseen with so few seeds.',
    );
  return {
    headline: differ
      ? 'The groups differ by more than chance allows: look for a cause in a container.'
      : 'The groups do not differ by more than chance allows.',
    lines: lines.filter(Boolean),
  };
}

/** What two heat sources made of the seeds of the same lots. */
export function sourcesWords({ first, second, lots, together }) {
  const {
    difference,
    differenceInterval: [low, high],
    oddsRatio,
    oddsRatioInterval,
    heterogeneity,
    perStratum,
    flipsP,
    leastFlipsP,
  } = together;
  const exact = together.exactP ?? null;
  const p = exact ?? together.p;
  const apart = p < 0.05;
  const mixed = heterogeneity !== null && heterogeneity.p < 0.05;
  const better = difference > 0 ? first : second;
  const lines = [
    `Within each lot, ${first} less ${second}: ${signedPoints(difference)} percentage points over all (95 %: ${signedPoints(low)} to ${signedPoints(high)}; ${exact === null ? 'Cochran, Mantel and Haenszel' : 'exact test'}: p = ${pWords(p)}).`,
    oddsRatioInterval === null
      ? ''
      : `Common odds ratio ${number(oddsRatio, 2)} (95 %: ${number(oddsRatioInterval[0], 2)} to ${number(oddsRatioInterval[1], 2)}).`,
  ];
  if (heterogeneity)
    lines.push(
      mixed
        ? `The lots disagree about the difference (p = ${pWords(heterogeneity.p)}): do not rely on one common figure.`
        : `The lots agree as far as they can show (p = ${pWords(heterogeneity.p)}).`,
    );
  lines.push(
    lots.length < 2
      ? 'One lot is one trial: the difference may be that of the containers. Repeat it with another lot.'
      : `Lots as units: mean ${signedPoints(perStratum.difference)}${perStratum.interval === null ? '' : ` (95 %: ${signedPoints(perStratum.interval[0])} to ${signedPoints(perStratum.interval[1])})`}` +
          `${flipsP === null ? '' : `, p = ${pWords(flipsP)}`}; with ${count(lots.length, 'lot')} no p can be under ${pWords(leastFlipsP)}.`,
  );
  lines.push(
    'Seeds of one container share its warmth and moisture, so the first p is too small where they do. Sources also differ in light, drying and place.',
  );
  return { headline: sourcesHeadline(apart, mixed, better, first, second), lines: lines.filter((line) => line) };
}

function sourcesHeadline(apart, mixed, better, first, second) {
  if (mixed) return `${first} and ${second}: the lots disagree.`;
  return apart
    ? `${better} did better than ${better === first ? second : first}, within the same lots.`
    : `No clear difference yet between ${first} and ${second}.`;
}

const pWords = (p) => (p < 0.001 ? 'under 0.001' : number(p, p < 0.1 ? 3 : 2));

/** An entry of the record as one line. */
export function entryWords(entry, names) {
  const { sown, move, check, survival } = entry;
  if (sown)
    return `Sown: ${sown.groups.map((part) => `${count(part.seeds, 'seed')} into ${names(part.container)} (group ${part.group})`).join(', ')}`;
  if (move) {
    const join = move.joinTo ? `, put with group ${move.joinTo}` : '';
    return `Group ${entry.group}: ${movedWhat(move)} moved to ${names(move.to)}${join}${move.splitInto ? `, now group ${move.splitInto}` : ''}`;
  }
  if (check) return `Check of group ${entry.group}: ${checkWords(check)}`;
  if (survival) return `Seedlings of group ${entry.group}: ${number(survival.alive)} alive`;
  return 'Withdrawn';
}

function movedWhat({ ungerminated, germinated }) {
  if (ungerminated === null && germinated === null) return 'all seeds';
  const parts = [
    ungerminated > 0 && `${number(ungerminated)} ungerminated`,
    germinated > 0 && `${number(germinated)} germinated`,
  ];
  return parts.filter(Boolean).join(' and ') || 'no seeds';
}

export function checkWords({ germinated = 0, culled = [], pottedOn = 0, rootLengthsCm = [] }) {
  const parts = [
    germinated > 0 && `${number(germinated)} newly germinated`,
    ...(culled ?? []).map(
      (line) =>
        `${number(line.count)} culled (${CULL_REASONS[line.reason] ?? line.reason}${line.germinated ? ', had germinated' : ''})`,
    ),
    pottedOn > 0 && `${number(pottedOn)} potted on`,
    rootLengthsCm.length > 0 && `${rootLengthsCm.length === 1 ? 'a root' : 'roots'} of ${rootLengthsCm.join('; ')} cm`,
  ];
  return parts.filter(Boolean).join(', ') || 'nothing new';
}

/** What part of a lot would germinate if it were sown now, by the record of its species. */
export const viabilityWords = (point) =>
  point ? `, ${fractionWords(point.fraction, point.interval)} would germinate if sown now` : '';

/** How germination falls with the days since gathering: a headline, rows of name and value, and what it rests on. */
export function viabilityPanel({
  identified,
  reason,
  groups,
  notFinal,
  halfDays,
  halfDaysInterval,
  dispersion,
  curve,
}) {
  const open = notFinal > 0 ? `${count(notFinal, 'sowing')} not finished yet` : null;
  if (!identified)
    return {
      headline: `How long seed keeps cannot be told yet: ${reason}.`,
      rows: [['Not counted', open]].filter(([, value]) => value),
      note: '',
    };
  const last = curve.at(-1);
  const half =
    halfDays === null
      ? `not between ${number(curve[0].days)} and ${number(last.days)} days, those on record`
      : `after ${number(halfDays, 1)} days (95 %: ${number(Math.max(0, halfDaysInterval[0]), 1)} to ${number(halfDaysInterval[1], 1)})`;
  const lots = new Set(groups.map((group) => group.lot)).size;
  return {
    headline: `Fewer germinate the longer seed is kept: ${fractionWords(curve[0].fraction, curve[0].interval)} after ${number(curve[0].days)} days, ${fractionWords(last.fraction, last.interval)} after ${number(last.days)} days.`,
    rows: [
      ['Half germinate', half],
      ['Counted', `${count(groups.length, 'group')} of ${count(lots, 'lot')}`],
      ['Not counted', open],
    ].filter(([, value]) => value),
    note: `Days run from gathering to sowing, whatever the way of keeping. ${dispersion > 1 ? 'Groups differ by more than chance, which widens the intervals.' : 'Groups differ by no more than chance.'}`,
  };
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
    ['Spread (standard deviation)', measures.variance === null ? UNKNOWN : days(Math.sqrt(measures.variance))],
    ['Speed (Maguire)', `${number(measures.speed, 2)} seeds a day`],
    ['Rate index', `${number(measures.rateIndexPercent, 2)} % a day`],
    ['Synchrony (0 to 1)', measures.synchrony === null ? UNKNOWN : number(measures.synchrony, 2)],
  ];
}
