// Comparisons of sowings, groups and heat sources in words. Pure.

import { count, number } from '../shared/format.js';
import { dayWords, fractionWords, notLookedAtWords } from './seed-words.js';

/** The comparison of two sowings: verdict, figures, and its limits. */
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
export function replicateWords(result) {
  if (!result) return null;
  const { replicates, p, exact, differ, range, toleratedRange, interval, fraction, germinated, sown } = result;
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

/** The comparison of two heat sources within the same lots. */
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
