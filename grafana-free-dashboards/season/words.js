// The season report in words and rows. Pure: answers of the service in, texts out.

import * as f from '../shared/format.js';
import { locale } from '../shared/language.js';
import { texts } from './texts.js';

export const known = (value) => value !== null && value !== undefined && Number.isFinite(value);
export const points = (fraction) => f.number(fraction * 100);
export const signed = (value) => `${value > 0 ? '+' : ''}${points(value)}`;
export const range = ([low, high], say) => texts.to(say(low), say(high));
export const pWords = (p) => (p < 0.001 ? texts.under0001 : f.number(p, p < 0.1 ? 3 : 2));
export const heatPerDay = (value) => `${f.degreeHours(value)}`;
/** A figure and what stands below it. */
export const figure = (main, below = '') => ({ main, below });

export const dateOf = (at, zone) =>
  new Intl.DateTimeFormat(locale, { day: 'numeric', month: 'short', year: 'numeric', timeZone: zone }).format(
    new Date(at),
  );
const shortDate = (at, zone) =>
  new Intl.DateTimeFormat(locale, { day: 'numeric', month: 'short', timeZone: zone }).format(new Date(at));
/** A season ends with the moment before its last instant: at midnight, that is the day before. */
export const spanWords = ({ from, to }, zone) => texts.to(dateOf(from, zone), dateOf(Date.parse(to) - 1, zone));

/** The fraction with its interval, in percent. */
export const fractionWords = ({ value, low, high }) => texts.n95To(points(value), points(low), points(high));

/** What was sown and came up, species by species. */
export function headlines(report) {
  if (report.sowings.length === 0) return [texts.nothingWasSownInThis, ...earlierWords(report)];
  return [...report.species.map(speciesWords), ...earlierWords(report)];
}

/** Seeds that nobody looked at are not counted as failures. */
function speciesWords({ name, sowings, sown, unchecked, germinated, fraction }) {
  const many = sowings > 1 ? texts.inSowings(sowings) : '';
  if (!fraction) return texts.sownNotCheckedYet(name, f.count(sown, texts.seedCount), many);
  const more = unchecked > 0 ? texts.moreWereNotCheckedYet(f.number(unchecked)) : '';
  return texts.ofGerminated(
    name,
    f.number(germinated),
    f.count(sown - unchecked, texts.seedCount),
    fractionWords(fraction),
    many ? `,${many}` : '',
    more,
  );
}

function earlierWords({ earlierSowings }) {
  if (earlierSowings === 0) return [];
  return [
    texts.stillHadSeedsInA(
      f.count(earlierSowings, texts.earlierSowingCount),
      earlierSowings === 1 ? texts.is : texts.are,
    ),
  ];
}

/**
 * Converts the text of a lesson to the unit that the reader chose. In texts of the service, °C follows each temperature
 * and °C·h each amount of heat.
 */
export function lessonWords(words) {
  if (f.temperatureUnit() === 'C') return words;
  return words
    .replace(/(\d+(?:\.\d+)?) °C·h/g, (_, value) => f.degreeHours(Number(value)))
    .replace(/(\u2212|-)?(\d+(?:\.\d+)?) °C(?!·)/g, (_, minus, value) =>
      f.temperature(Number(value) * (minus ? -1 : 1)),
    );
}

export const SOWING_TITLES = [
  texts.sown,
  texts.seeds,
  texts.germinated,
  texts.firstFound,
  texts.halfBy,
  texts.culled,
  texts.pottedOn,
  texts.left,
  texts.heatUntilTheLastCheck,
];

export function sowingRows(report, zone) {
  return report.sowings.map((one) => ({
    name: figure(one.name, one.name.startsWith(one.speciesName) ? '' : one.speciesName),
    cells: [
      figure(shortDate(one.sownAt, zone), one.containers.join(', ')),
      figure(f.number(one.seeds), one.notLookedAt > 0 ? texts.notLookedAt(f.number(one.notLookedAt)) : ''),
      one.fraction
        ? figure(
            `${f.number(one.germinated)} = ${points(one.fraction.value)} %`,
            range([one.fraction.low, one.fraction.high], points),
          )
        : figure(texts.notChecked),
      figure(known(one.firstFoundDay) ? texts.day(dayNumber(one.firstFoundDay)) : f.UNKNOWN),
      figure(one.halfBetween ? texts.day(range(one.halfBetween, dayNumber)) : one.fraction ? texts.notHalf : f.UNKNOWN),
      figure(f.number(one.culled), culledWords(one)),
      figure(f.number(one.pottedOn), one.pottedOn > 0 ? texts.alive(one.alive) : ''),
      figure(f.number(one.remaining)),
      sowingHeat(one),
    ],
  }));
}

const reasonWords = (reason) => texts.cullReasons[reason] ?? reason;

/** Culled counts the ungerminated alone; the reasons count what had germinated before, too. */
function culledWords({ culled, culledFor }) {
  if (culledFor.length === 1 && culledFor[0].seeds === culled) return reasonWords(culledFor[0].reason);
  return culledFor.map(({ reason, seeds }) => `${seeds} ${reasonWords(reason)}`).join(', ');
}

export const dayNumber = (days) => f.number(days, days < 10 && !Number.isInteger(days) ? 1 : 0);

function sowingHeat({ heat, lastCheckDay }) {
  if (!heat) return figure(known(lastCheckDay) ? texts.notKnown : texts.notChecked);
  if (heat.coveredHours === 0) return figure(texts.notMeasured);
  const open = heat.upper - heat.lower;
  const bounds = open > 0.005 * heat.upper ? `; ${range([heat.lower, heat.upper], f.degreeHoursNumber)}` : '';
  return figure(f.degreeHours(heat.degreeHours), texts.day2(dayNumber(lastCheckDay), bounds));
}

/** The methods behind the figures. */
export function smallPrint(report) {
  const { heat } = report;
  return [texts.countsAreThoseOfThe, texts.heatIsDegreeHoursOf(heat ? texts.mostly(f.temperature(heat.base)) : '')];
}
