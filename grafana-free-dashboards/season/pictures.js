// The picture of a lesson: the figures that it was drawn from, as bars. Pure.

import * as f from '../shared/format.js';
import { points, signed } from './words.js';
import { texts } from './texts.js';

/** More bars than this hide what the lesson is about; the tables below have all. */
const MOST = 6;

/**
 * {caption, bars} of a lesson, greatest first; null for a kind that this page does not know, or without figures.
 * A bar is {name, value, text}, and with `low` and `high` an interval; `zero` where intervals are differences.
 */
export function pictureOf({ kind }, report) {
  const picture = PICTURES[kind]?.(report, kind) ?? null;
  return picture && picture.bars.length > 0 ? picture : null;
}

const shareBar = (name, share) => ({ name, value: share, text: f.share(share) });

/** @param share of a container or sowing; null leaves it out */
function shares(caption, all, share) {
  const bars = all
    .map((one) => [one.name, share(one)])
    .filter(([, value]) => f.known(value))
    .sort((a, b) => b[1] - a[1])
    .map(([name, value]) => shareBar(name, value));
  return { caption, bars: bars.slice(0, MOST) };
}

const part = (hours, of) => (of > 0 ? hours / of : null);
const outside = (kind, caption) => (report) =>
  shares(caption, report.containers, (one) => part(one[kind].hours, one.coveredHours));

function leakDays({ containers }, kind) {
  const bars = containers
    .filter((one) => one.lightCoveredHours > 0)
    .map((one) => [one.name, one.leaks.byKind.find((leaks) => leaks.kind === kind)?.days ?? 0])
    .sort((a, b) => b[1] - a[1])
    .map(([name, days]) => ({ name, value: days, text: f.count(days, texts.dayCount) }));
  return { caption: texts.daysWithSuchLight, bars: bars.slice(0, MOST) };
}

function differences({ pairs }) {
  const bars = pairs.slice(0, MOST).map((one) => ({
    name: texts.less(one.firstName, one.secondName),
    ...one.difference,
    text: signed(one.difference.value),
  }));
  return { caption: texts.differenceWithInterval, bars, zero: true };
}

function sources({ heatSources }) {
  const bars = (heatSources?.sources ?? [])
    .filter((one) => one.degreeHoursPerDay)
    .map(({ name, degreeHoursPerDay }) => ({
      name,
      ...degreeHoursPerDay,
      text: f.degreeHours(degreeHoursPerDay.value),
    }));
  return { caption: texts.heatADayWithInterval, bars: bars.slice(0, MOST), interval: true };
}

function earlier(report) {
  const bars = report.earlier.flatMap((season) =>
    season.species.flatMap((one) => [
      germinated(texts.inSeason(one.name, season.name), one.then),
      germinated(texts.inThisSeason(one.name), one.now),
    ]),
  );
  return { caption: texts.germinatedThenAndNow, bars: bars.slice(0, MOST) };
}

const germinated = (name, { germinated: count, sown }) => ({
  name,
  value: sown > 0 ? count / sown : 0,
  text: sown > 0 ? `${points(count / sown)} %` : f.UNKNOWN,
});

const PICTURES = {
  cold: outside('cold', texts.timeTooCold),
  hot: outside('hot', texts.timeTooHot),
  dry: (report) => shares(texts.timeTooDry, report.containers, (one) => part(one.dryHours, one.humidityCoveredHours)),
  daylight: leakDays,
  lamp: leakDays,
  other: leakDays,
  unheard: (report) =>
    shares(texts.timeWithoutReadings, report.containers, (one) => part(one.gapHours, one.coveredHours + one.gapHours)),
  blind: (report) =>
    shares(
      texts.timeWithReadings,
      report.containers.filter((one) => one.seeds),
      (one) => part(one.coveredHours, one.coveredHours + one.gapHours) ?? 0,
    ),
  culled: (report) => shares(texts.seedsDiscarded, report.sowings, (one) => part(one.culled, one.seeds)),
  sowings: differences,
  undecided: differences,
  sources,
  earlier,
};
