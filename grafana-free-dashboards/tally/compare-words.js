// Comparisons of sowings, groups and heat sources in words. Pure.

import { count, number } from '../shared/format.js';
import { dayWords, fractionWords, notLookedAtWords } from './seed-words.js';
import { listed } from '../shared/text.js';
import { texts } from './texts.js';

/** The comparison of two sowings: verdict, figures, and its limits. */
export function comparisonWords({ a, b, difference, logRank }, names) {
  if (!difference) {
    const unseen = [a, b].map((side, i) => (side.fraction.sown === 0 ? names[i] : null)).filter(Boolean);
    return { headline: texts.nothingToCompareYet, lines: [texts.nobodyHasLookedAtThe(listed(unseen))] };
  }
  const [low, high] = difference.newcombe;
  const apart = low > 0 || high < 0;
  const lines = [
    sideWords(a, names[0]),
    sideWords(b, names[1]),
    texts.theFirstLessTheSecond(signedPoints(difference.difference)) +
      texts.anythingFromToFitsThese(signedPoints(low), signedPoints(high), pWords(difference.fisherP)),
  ];
  const needed = difference.seedsEachForPower80;
  if (needed === null) lines.push(texts.bothFractionsAreTheSame);
  else
    lines.push(
      texts.toFindADifferenceOf(count(needed, texts.seedCount), number(a.fraction.sown), number(b.fraction.sown)),
    );
  if (logRank) lines.push(texts.paceAndFinalFractionTogether(pWords(logRank.p)));
  if (a.remaining > 0 || b.remaining > 0) {
    lines.push(
      texts.notOverYetAndSeeds(
        number(a.remaining),
        number(b.remaining),
        dayWords(watchedUntil(a)),
        dayWords(watchedUntil(b)),
      ) + texts.aSowingThatWasWatched,
    );
  }
  return { headline: comparisonHeadline(difference, apart, names, { a, b }), lines };
}

const watchedUntil = ({ remainingWatchedDays, lastCheckDay }) => remainingWatchedDays ?? lastCheckDay;

function sideWords({ fraction, notLookedAt }, name) {
  const others = notLookedAt > 0 ? `; ${notLookedAtWords(notLookedAt)}` : '';
  return texts.ofWord(
    name,
    number(fraction.germinated),
    number(fraction.sown),
    fractionWords(fraction.fraction, fraction.wilson),
    others,
  );
}

function comparisonHeadline(difference, apart, names, { a, b }) {
  if (apart) return texts.didBetterByMoreThan(names[difference.difference > 0 ? 0 : 1]);
  const needed = difference.seedsEachForPower80;
  const few = needed === null || needed > 2 * Math.min(a.fraction.sown, b.fraction.sown);
  return few ? texts.theseTwoSayAlmostNothing : texts.theseTwoDoNotTell;
}

const signedPoints = (value) => `${value > 0 ? '+' : ''}${number(value * 100, Math.abs(value) < 0.1 ? 1 : 0)}`;

/** Whether the groups of a sowing differ by more than chance allows; null where there is nothing to compare. */
export function replicateWords(result) {
  if (!result) return null;
  const { replicates, p, exact, differ, range, toleratedRange, interval, fraction, germinated, sown } = result;
  const lines = [
    texts.bestAndWorstGroupAre(number(range * 100)),
    toleratedRange !== null &&
      texts.seedTestingToleratesPointsFor(number(toleratedRange * 100), count(replicates, texts.groupCount)),
    texts.chanceAloneMakesGroupsDiffer(pWords(p), exact ? texts.exact : 'χ²'),
  ];
  if (differ)
    lines.push(texts.allGroupsTogetherOfWhen(number(germinated), number(sown), fractionWords(fraction, interval)));
  else
    lines.push(
      germinated === 0 || germinated === sown ? texts.withAllOrNoneGerminated : texts.smallDifferencesCanStayUnseen,
    );
  return {
    headline: differ ? texts.theGroupsDifferByMore : texts.theGroupsDoNotDiffer,
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
    texts.withinEachLotLessPercentage(
      first,
      second,
      signedPoints(difference),
      signedPoints(low),
      signedPoints(high),
      exact === null ? texts.cochranMantelAndHaenszel : texts.exactTest,
      pWords(p),
    ),
    oddsRatioInterval === null
      ? ''
      : texts.commonOddsRatio95To(
          number(oddsRatio, 2),
          number(oddsRatioInterval[0], 2),
          number(oddsRatioInterval[1], 2),
        ),
  ];
  if (heterogeneity)
    lines.push((mixed ? texts.theLotsDisagreeAboutThe : texts.theLotsAgreeAsFar)(pWords(heterogeneity.p)));
  lines.push(
    lots.length < 2
      ? texts.oneLotIsOneTrial
      : texts.lotsAsUnitsMean(
          signedPoints(perStratum.difference),
          perStratum.interval === null
            ? ''
            : texts.n95To(signedPoints(perStratum.interval[0]), signedPoints(perStratum.interval[1])),
        ) +
          texts.withNoPCanBe(
            flipsP === null ? '' : `, p = ${pWords(flipsP)}`,
            count(lots.length, texts.lotCount),
            pWords(leastFlipsP),
          ),
  );
  lines.push(texts.seedsOfOneContainerShare);
  return { headline: sourcesHeadline(apart, mixed, better, first, second), lines: lines.filter((line) => line) };
}

function sourcesHeadline(apart, mixed, better, first, second) {
  if (mixed) return texts.andTheLotsDisagree(first, second);
  return apart
    ? texts.didBetterThanWithinThe(better, better === first ? second : first)
    : texts.noClearDifferenceYetBetween(first, second);
}

const pWords = (p) => (p < 0.001 ? texts.under0001 : number(p, p < 0.1 ? 3 : 2));
