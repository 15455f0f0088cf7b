// The containers of a season as rows of a table. Pure.

import { leftOutOfHeat } from '../shared/fault-words.js';
import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';
import { figure, heatPerDay, known } from './words.js';
import { texts } from './texts.js';

export const CONTAINER_TITLES = [
  texts.heatADay,
  texts.insideTheLimits,
  texts.coldestHottest,
  texts.tooCold,
  texts.tooHot,
  texts.tooDry,
  texts.lightLeaks,
  texts.opened,
  texts.measured,
];

export function containerRows(report) {
  return report.containers.map((one) => ({
    name: figure(one.name, one.heatSource ?? texts.noHeatSource),
    cells: [
      figure(known(one.degreeHoursPerDay) ? heatPerDay(one.degreeHoursPerDay) : f.UNKNOWN),
      figure(f.share(one.fractionInTemperatureBand)),
      figure(known(one.coldest) ? texts.to(f.number(f.toUnit(one.coldest), 1), f.temperature(one.hottest)) : f.UNKNOWN),
      outside(one, one.cold, true),
      outside(one, one.hot, false),
      figure(one.humidityCoveredHours === 0 ? f.UNKNOWN : one.dryHours === 0 ? texts.never : t.hours(one.dryHours)),
      leaks(one),
      figure(f.number(one.openings)),
      figure(one.coveredHours === 0 ? texts.notMeasured : t.hours(one.coveredHours), gapWords(one)),
    ],
  }));
}

/** Time without readings, and time whose readings do not count. */
function gapWords({ gapHours, leftOutHours = 0 }) {
  const silent = gapHours - leftOutHours;
  return [silent >= 0.5 ? texts.notHeard(t.hours(silent)) : '', leftOutOfHeat(leftOutHours)]
    .filter((text) => text)
    .join('; ');
}

function outside({ coveredHours }, { excursions, duringOpenings, hours, longestHours, degreeHoursLost }, cold) {
  if (coveredHours === 0) return figure(f.UNKNOWN);
  if (excursions + duringOpenings === 0) return figure(texts.never);
  const longest = excursions > 1 ? texts.longest(t.hours(longestHours)) : '';
  const open = duringOpenings > 0 ? texts.whileOpen(duringOpenings) : '';
  const lost = cold && degreeHoursLost >= 0.05 ? texts.lost(f.degreeHours(degreeHoursLost)) : '';
  return figure(
    `${excursions > 0 ? `${excursions} ×, ` : ''}${t.hours(hours)}`,
    [longest, open, lost].filter((text) => text).join('; '),
  );
}

const KINDS = { daylight: texts.daylight, lamp: texts.lamp, other: texts.notKnown };

function leaks({ lightCoveredHours, leaks: { count, doseLuxHours, byKind } }) {
  if (lightCoveredHours === 0) return figure(f.UNKNOWN);
  if (count === 0) return figure(texts.none);
  return figure(
    `${count} ×, ${f.luxHours(doseLuxHours)}`,
    byKind.map((one) => texts.on(KINDS[one.kind] ?? one.kind, f.count(one.days, texts.dayCount))).join('; '),
  );
}
