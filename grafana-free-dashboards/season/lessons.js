// Lessons of a season in the reader's language and unit, from their figures. A report that an earlier version kept has
// none: its lessons keep the sentences of the service. Pure.

import { comparisonSentence } from '../shared/bench-words.js';
import * as f from '../shared/format.js';
import { capital } from '../shared/text.js';
import { lessonWords, points } from './words.js';
import { texts } from './texts.js';

const othersToo = (others) => (others > 0 ? texts.sameForOthers(f.count(others, texts.otherCount)) : '');
const percent = (fraction) => `${f.number(fraction * 100, fraction < 0.1 ? 1 : 0)} %`;
const hours = (value) => `${f.number(value)} h`;

const light =
  (words) =>
  ({ name, days, dose, others }) =>
    words(name, f.count(days, texts.lightDayCount), f.luxHours(dose)) + othersToo(others);

const between = (low, high, say) => (f.known(low) && f.known(high) ? texts.n95Interval(say(low), say(high)) : '');

function cold({ name, low, share, hours: below, lost, averageDays, others, totalLost }) {
  const days = f.known(averageDays) ? texts.heatOfAverageDays(f.number(averageDays, 1)) : '';
  const also =
    others > 0 ? texts.sameForOthersInTotal(f.count(others, texts.otherCount), f.degreeHours(totalLost)) : '';
  return texts.lessonCold(name, f.temperature(low), percent(share), hours(below), f.degreeHours(lost), days) + also;
}

function hot({ name, high, share, hours: above, hottest, others }) {
  const most = f.known(hottest) ? texts.atMost(f.temperature(hottest)) : '';
  return texts.lessonHot(name, f.temperature(high), percent(share), hours(above), most) + othersToo(others);
}

function culled({ name, discarded, seeds, reason, ofReason, above, others }) {
  const part = ofReason === discarded ? texts.allOfThem : texts.ofThem(f.number(ofReason));
  const why = texts.becauseOf(part, texts.cullReasons[reason] ?? reason);
  const also = others > 0 ? texts.shareAlsoAbove(percent(above), f.count(others, texts.otherSowingCount)) : '';
  return texts.lessonCulled(f.number(discarded), f.number(seeds), name, why) + also;
}

function sowings({ better, worse, difference, low, high, betterDays, worseDays, pairs, clear }) {
  return [
    texts.lessonSowings(better, worse, points(difference), between(low, high, points)),
    f.known(betterDays)
      ? texts.watchedForDifferentTimes(f.number(betterDays), f.number(worseDays))
      : texts.causeNotShown,
    pairs > 1 ? texts.clearAmongPairs(f.number(pairs), f.number(clear)) : '',
  ]
    .filter(Boolean)
    .join(' ');
}

const undecided = ({ first, second, needed, smaller }) =>
  `${texts.noClearDifference(first, second)} ${
    needed === undefined ? texts.sameFractionOfBoth : texts.seedsToTell(f.number(needed), f.number(smaller))
  }`;

function earlier({ name, season, change, low, high, nowGerminated, nowSown, thenGerminated, thenSown }) {
  const words = change > 0 ? texts.betterThanIn : texts.worseThanIn;
  const now = texts.ofWord(f.number(nowGerminated), f.number(nowSown));
  const then = texts.ofWord(f.number(thenGerminated), f.number(thenSown));
  const difference = points(Math.abs(change));
  return `${words(name, season, difference, between(low, high, points))} ${texts.nowAndThen(now, then)} ${texts.causeNotShown}`;
}

export const LESSONS = {
  cold,
  hot,
  dry: ({ name, low, share, hours: dry, others }) =>
    texts.lessonDry(name, f.humidity(low), percent(share), hours(dry)) + othersToo(others),
  daylight: light(texts.lessonDaylight),
  lamp: light(texts.lessonLamp),
  light: light(texts.lessonLight),
  unheard: ({ name, gapHours, hours: all, least, most, others }) =>
    texts.lessonUnheard(name, f.number(gapHours), hours(all), f.degreeHours(least), f.degreeHours(most)) +
    othersToo(others),
  blind: ({ name, others }) => texts.lessonBlind(others > 0 ? texts.nameAndOthers(name, f.number(others)) : name),
  culled,
  sowings,
  undecided,
  sources: ({ more, less, gain, low, high }) =>
    texts.lessonSources(capital(more), f.degreeHours(gain), less, between(low, high, f.degreeHours)),
  earlier,
};

/** @param lesson {kind, words, figures} of the service */
export function lessonText({ kind, words, figures }) {
  return figures && LESSONS[kind] ? LESSONS[kind](figures) : lessonWords(words);
}

/** What the comparison of heat sources comes to. A report that an earlier version kept has the sentence of the service. */
export function sourcesVerdict({ sources, pairs, verdict }) {
  if (pairs.length === 0 || !f.known(pairs[0].sensorErrorPerDay)) return lessonWords(verdict);
  return comparisonSentence({
    by: 'sources',
    compared: sources.map((one) => ({ ...one, key: one.name })),
    pairs: pairs.map((one) => ({
      ...one,
      pairedHours: one.hours,
      sensorError: one.sensorErrorPerDay,
      differences: { degreeHoursPerDay: one.degreeHoursPerDay },
    })),
  });
}
