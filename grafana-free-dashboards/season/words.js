// The season report in words and rows. Pure: answers of the service in, texts out.

import * as f from '../shared/format.js';

const known = (value) => value !== null && value !== undefined && Number.isFinite(value);
const points = (fraction) => f.number(fraction * 100);
const signed = (value) => `${value > 0 ? '+' : ''}${points(value)}`;
const range = ([low, high], say) => `${say(low)} to ${say(high)}`;
const pWords = (p) => (p < 0.001 ? 'under 0.001' : f.number(p, p < 0.1 ? 3 : 2));
const heatPerDay = (value) => `${f.degreeHours(value)}`;
/** A figure and what stands below it. */
const figure = (main, below = '') => ({ main, below });

export const dateOf = (at, zone) =>
  new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', year: 'numeric', timeZone: zone }).format(
    new Date(at),
  );
const shortDate = (at, zone) =>
  new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', timeZone: zone }).format(new Date(at));
/** A season ends with the moment before its last instant: at midnight, that is the day before. */
export const spanWords = ({ from, to }, zone) => `${dateOf(from, zone)} to ${dateOf(Date.parse(to) - 1, zone)}`;

/** The fraction with its interval, in percent. */
export const fractionWords = ({ value, low, high }) => `${points(value)} % (95 %: ${points(low)} to ${points(high)} %)`;

/** What was sown and came up, species by species. */
export function headlines(report) {
  if (report.sowings.length === 0) return ['Nothing was sown in this season.', ...earlierWords(report)];
  return [...report.species.map(speciesWords), ...earlierWords(report)];
}

/** Seeds that nobody looked at are no failures. */
function speciesWords({ name, sowings, sown, unchecked, germinated, fraction }) {
  const many = sowings > 1 ? ` in ${sowings} sowings` : '';
  if (!fraction) return `${name}: ${f.count(sown, 'seed')} sown${many}, not checked yet.`;
  const more = unchecked > 0 ? `; ${f.number(unchecked)} more were not checked yet` : '';
  return `${name}: ${f.number(germinated)} of ${f.count(sown - unchecked, 'seed')} germinated, ${fractionWords(fraction)}${many ? `,${many}` : ''}${more}.`;
}

function earlierWords({ earlierSowings }) {
  if (earlierSowings === 0) return [];
  return [
    `${f.count(earlierSowings, 'earlier sowing')} still had seeds in a container when it began, and ${earlierSowings === 1 ? 'is' : 'are'} not counted here.`,
  ];
}

/**
 * A lesson in the unit that the reader chose: the service tells every temperature with °C and every heat with °C·h behind it.
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
  'Sown',
  'Seeds',
  'Germinated',
  'First found',
  'Half by',
  'Culled',
  'Potted on',
  'Left',
  'Heat until the last check',
];

export function sowingRows(report, zone) {
  return report.sowings.map((one) => ({
    name: figure(one.name, one.name.startsWith(one.speciesName) ? '' : one.speciesName),
    cells: [
      figure(shortDate(one.sownAt, zone), one.containers.join(', ')),
      figure(f.number(one.seeds), one.notLookedAt > 0 ? `${f.number(one.notLookedAt)} not looked at` : ''),
      one.fraction
        ? figure(
            `${f.number(one.germinated)} = ${points(one.fraction.value)} %`,
            range([one.fraction.low, one.fraction.high], points),
          )
        : figure('not checked'),
      figure(known(one.firstFoundDay) ? `day ${dayNumber(one.firstFoundDay)}` : f.UNKNOWN),
      figure(one.halfBetween ? `day ${range(one.halfBetween, dayNumber)}` : one.fraction ? 'not half' : f.UNKNOWN),
      figure(f.number(one.culled), culledWords(one)),
      figure(f.number(one.pottedOn), one.pottedOn > 0 ? `${one.alive} alive` : ''),
      figure(f.number(one.remaining)),
      sowingHeat(one),
    ],
  }));
}

/** Culled counts the ungerminated alone; the reasons count what had germinated before, too. */
function culledWords({ culled, culledFor }) {
  if (culledFor.length === 1 && culledFor[0].seeds === culled) return culledFor[0].reason;
  return culledFor.map(({ reason, seeds }) => `${seeds} ${reason}`).join(', ');
}

const dayNumber = (days) => f.number(days, days < 10 && !Number.isInteger(days) ? 1 : 0);

function sowingHeat({ heat, lastCheckDay }) {
  if (!heat) return figure(known(lastCheckDay) ? 'not known' : 'not checked');
  if (heat.coveredHours === 0) return figure('not measured');
  const open = heat.upper - heat.lower;
  const bounds = open > 0.005 * heat.upper ? `; ${range([heat.lower, heat.upper], f.degreeHoursNumber)}` : '';
  return figure(f.degreeHours(heat.degreeHours), `day ${dayNumber(lastCheckDay)}${bounds}`);
}

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
      figure(one.humidityCoveredHours === 0 ? f.UNKNOWN : one.dryHours === 0 ? 'never' : f.hours(one.dryHours)),
      leaks(one),
      figure(f.number(one.openings)),
      figure(
        one.coveredHours === 0 ? 'no sensor' : f.hours(one.coveredHours),
        one.gapHours >= 0.5 ? `${f.hours(one.gapHours)} not heard` : '',
      ),
    ],
  }));
}

function outside({ coveredHours }, { excursions, duringOpenings, hours, longestHours, degreeHoursLost }, cold) {
  if (coveredHours === 0) return figure(f.UNKNOWN);
  if (excursions + duringOpenings === 0) return figure('never');
  const longest = excursions > 1 ? `longest ${f.hours(longestHours)}` : '';
  const open = duringOpenings > 0 ? `${duringOpenings} while open` : '';
  const lost = cold && degreeHoursLost >= 0.05 ? `${f.degreeHours(degreeHoursLost)} lost` : '';
  return figure(
    `${excursions > 0 ? `${excursions} ×, ` : ''}${f.hours(hours)}`,
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

/** How the figures were made, for those who read the page later. */
export function smallPrint(report) {
  const { heat } = report;
  return [
    'Counts are those of the checks until the end of the season; a seed germinated at some time between two checks. Seeds that nobody looked at are left out of fractions and comparisons. Intervals are 95 %: fractions after Wilson, differences after Newcombe; every seed counts as one trial.',
    `Heat is degree-hours: of sowings above the base of the species, of containers above their own base${heat ? ` (mostly ${f.temperature(heat.base)})` : ''}; what was not measured adds none, and the range below says what it can have been.`,
  ];
}
