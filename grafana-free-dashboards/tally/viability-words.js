// How long seeds keep, in words. Pure.

import { count, number } from '../shared/format.js';
import { fractionWords } from './seed-words.js';
import { texts } from './texts.js';
import { noCurveWords } from './why-words.js';

/** What part of a lot would germinate if it were sown now, by the record of its species. */
export const viabilityWords = (point) =>
  point ? texts.wouldGerminateIfSownNow(fractionWords(point.fraction, point.interval)) : '';

/** Germination by days since gathering: a headline, rows of name and value, and the assumptions. */
export function viabilityPanel({
  identified,
  reason,
  because,
  groups,
  notFinal,
  halfDays,
  halfDaysInterval,
  dispersion,
  curve,
}) {
  const open = notFinal > 0 ? texts.notFinishedYet(count(notFinal, texts.sowingCount)) : null;
  if (!identified)
    return {
      headline: texts.howLongSeedKeepsCannot(noCurveWords({ reason, because })),
      rows: [[texts.notCounted, open]].filter(([, value]) => value),
      note: '',
    };
  const last = curve.at(-1);
  const half =
    halfDays === null
      ? texts.notBetweenAndDaysThose(number(curve[0].days), number(last.days))
      : texts.afterDays95To(
          number(halfDays, 1),
          number(Math.max(0, halfDaysInterval[0]), 1),
          number(halfDaysInterval[1], 1),
        );
  const lots = new Set(groups.map((group) => group.lot)).size;
  return {
    headline: texts.fewerGerminateTheLongerSeed(
      fractionWords(curve[0].fraction, curve[0].interval),
      count(Math.round(curve[0].days), texts.dayCount),
      fractionWords(last.fraction, last.interval),
      count(Math.round(last.days), texts.dayCount),
    ),
    rows: [
      [texts.halfGerminate, half],
      [texts.counted, texts.ofWord2(count(groups.length, texts.groupCount), count(lots, texts.lotCount))],
      [texts.notCounted, open],
    ].filter(([, value]) => value),
    note: texts.daysRunFromGatheringTo(dispersion > 1 ? texts.groupsDifferByMoreThan : texts.groupsDifferByNoMore),
  };
}
