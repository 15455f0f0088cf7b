// The containers of a season as rows of a table. Pure.

import { leftOutOfHeat } from '../shared/fault-words.js';
import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';
import { figure, heatPerDay, known } from './words.js';

export const CONTAINER_TITLES = [
  'Heat a day',
  'In the band',
  'Coldest, hottest',
  'Too cold',
  'Too hot',
  'Too dry',
  'Light leaks',
  'Opened',
  'Measured',
];

export function containerRows(report) {
  return report.containers.map((one) => ({
    name: figure(one.name, one.heatSource ?? 'no heat source'),
    cells: [
      figure(known(one.degreeHoursPerDay) ? heatPerDay(one.degreeHoursPerDay) : f.UNKNOWN),
      figure(f.share(one.fractionInTemperatureBand)),
      figure(known(one.coldest) ? `${f.number(f.toUnit(one.coldest), 1)} to ${f.temperature(one.hottest)}` : f.UNKNOWN),
      outside(one, one.cold, true),
      outside(one, one.hot, false),
      figure(one.humidityCoveredHours === 0 ? f.UNKNOWN : one.dryHours === 0 ? 'never' : t.hours(one.dryHours)),
      leaks(one),
      figure(f.number(one.openings)),
      figure(one.coveredHours === 0 ? 'no sensor' : t.hours(one.coveredHours), gapWords(one)),
    ],
  }));
}

/** Time without readings, and time whose readings do not count. */
function gapWords({ gapHours, leftOutHours = 0 }) {
  const silent = gapHours - leftOutHours;
  return [silent >= 0.5 ? `${t.hours(silent)} not heard` : '', leftOutOfHeat(leftOutHours)]
    .filter((text) => text)
    .join('; ');
}

function outside({ coveredHours }, { excursions, duringOpenings, hours, longestHours, degreeHoursLost }, cold) {
  if (coveredHours === 0) return figure(f.UNKNOWN);
  if (excursions + duringOpenings === 0) return figure('never');
  const longest = excursions > 1 ? `longest ${t.hours(longestHours)}` : '';
  const open = duringOpenings > 0 ? `${duringOpenings} while open` : '';
  const lost = cold && degreeHoursLost >= 0.05 ? `${f.degreeHours(degreeHoursLost)} lost` : '';
  return figure(
    `${excursions > 0 ? `${excursions} ×, ` : ''}${t.hours(hours)}`,
    [longest, open, lost].filter((text) => text).join('; '),
  );
}

const KINDS = { daylight: 'daylight', lamp: 'lamp', other: 'not known' };

function leaks({ lightCoveredHours, leaks: { count, doseLuxHours, byKind } }) {
  if (lightCoveredHours === 0) return figure(f.UNKNOWN);
  if (count === 0) return figure('none');
  return figure(
    `${count} ×, ${f.luxHours(doseLuxHours)}`,
    byKind.map((one) => `${KINDS[one.kind] ?? one.kind} on ${f.count(one.days, 'day')}`).join('; '),
  );
}
