// Comparisons within a season and with earlier seasons, as rows and words. Pure.

import * as f from '../shared/format.js';
import { dayNumber, figure, heatPerDay, known, pWords, points, range, signed, spanWords } from './words.js';

export const PAIR_TITLES = ['Difference, points', 'p (Fisher)', 'Seeds each to tell'];

export function pairRows(report) {
  return report.pairs.map((one) => ({
    name: figure(
      `${one.firstName} less ${one.secondName}`,
      `${one.speciesName}; remaining seeds watched for ${dayNumber(one.firstDays)} and ${dayNumber(one.secondDays)} days`,
    ),
    cells: [
      figure(signed(one.difference.value), range([one.difference.low, one.difference.high], signed)),
      figure(pWords(one.fisherP)),
      figure(
        known(one.seedsEach) ? f.number(one.seedsEach) : f.UNKNOWN,
        `the smaller had ${f.number(one.fewestSeeds)}`,
      ),
    ],
  }));
}

export const SOURCE_TITLES = ['Containers', 'Hours', 'Heat a day'];

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
    known(interval.low) ? range([interval.low, interval.high], f.degreeHoursNumber) : 'too few for an interval',
  );
}

export const EARLIER_TITLES = ['Then', 'Now', 'Now less then, points'];

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
  figure(`${f.number(germinated)} of ${f.number(sown)}`, `${points(germinated / sown)} %`);

/** The heat of an average day then and now, where it can be compared. */
export const earlierHeat = (report) =>
  report.earlier.map((season) =>
    season.heat
      ? `Heat a day in the containers with seeds: ${heatPerDay(season.heat.then)} in ${season.name}, ${heatPerDay(season.heat.now)} now.`
      : `The heat of ${season.name} cannot be compared: it was not measured in both, or summed above another base.`,
  );
