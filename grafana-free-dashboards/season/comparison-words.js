// Comparisons within a season and with earlier seasons, as rows and words. Pure.

import * as f from '../shared/format.js';
import { dayNumber, figure, heatPerDay, known, pWords, points, range, signed, spanWords } from './words.js';
import { texts } from './texts.js';

export const PAIR_TITLES = [texts.differencePoints, texts.pFisher, texts.seedsEachToTell];

export function pairRows(report) {
  return report.pairs.map((one) => ({
    name: figure(
      texts.less(one.firstName, one.secondName),
      texts.remainingSeedsWatchedForAnd(one.speciesName, dayNumber(one.firstDays), dayNumber(one.secondDays)),
    ),
    cells: [
      figure(signed(one.difference.value), range([one.difference.low, one.difference.high], signed)),
      figure(pWords(one.fisherP)),
      figure(
        known(one.seedsEach) ? f.number(one.seedsEach) : f.UNKNOWN,
        texts.theSmallerHad(f.number(one.fewestSeeds)),
      ),
    ],
  }));
}

export const SOURCE_TITLES = [texts.containers, texts.hours, texts.heatADay];

export function sourceRows({ sources }) {
  return sources.map((one) => ({
    name: figure(one.name),
    cells: [figure(f.number(one.containers.length)), figure(f.number(one.hours)), heatInterval(one.degreeHoursPerDay)],
  }));
}

function heatInterval(interval) {
  if (!interval) return figure(f.UNKNOWN);
  return figure(
    heatPerDay(interval.value),
    known(interval.low) ? range([interval.low, interval.high], f.degreeHoursNumber) : texts.tooFewForAnInterval,
  );
}

export const EARLIER_TITLES = [texts.then, texts.now, texts.nowLessThenPoints];

/** One row for each species sown in an earlier season too. */
export function earlierRows(report, zone) {
  return report.earlier.flatMap((season) =>
    season.species.map((one) => ({
      name: figure(one.name, `${season.name}, ${spanWords(season, zone)}`),
      cells: [
        count(one.then),
        count(one.now),
        figure(signed(one.difference.value), range([one.difference.low, one.difference.high], signed)),
      ],
    })),
  );
}

const count = ({ germinated, sown }) =>
  figure(texts.ofWord(f.number(germinated), f.number(sown)), `${points(germinated / sown)} %`);

/** The heat of an average day then and now, where it can be compared. */
export const earlierHeat = (report) =>
  report.earlier.map((season) =>
    season.heat
      ? texts.heatADayInThe(heatPerDay(season.heat.then), season.name, heatPerDay(season.heat.now))
      : texts.theHeatOfCannotBe(season.name),
  );
