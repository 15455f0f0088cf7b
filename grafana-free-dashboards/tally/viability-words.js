// How long seeds keep, in words. Pure.

import { count, number } from '../shared/format.js';
import { fractionWords } from './seed-words.js';

/** What part of a lot would germinate if it were sown now, by the record of its species. */
export const viabilityWords = (point) =>
  point ? `, ${fractionWords(point.fraction, point.interval)} would germinate if sown now` : '';

/** Germination by days since gathering: a headline, rows of name and value, and the assumptions. */
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
      headline: `How long seed keeps cannot be estimated yet: ${reason}.`,
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
