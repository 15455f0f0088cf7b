// The season report in words and rows. Pure: answers of the service in, texts out.

import * as f from '../shared/format.js';

export const known = (value) => value !== null && value !== undefined && Number.isFinite(value);
export const points = (fraction) => f.number(fraction * 100);
export const signed = (value) => `${value > 0 ? '+' : ''}${points(value)}`;
export const range = ([low, high], say) => `${say(low)} to ${say(high)}`;
export const pWords = (p) => (p < 0.001 ? 'under 0.001' : f.number(p, p < 0.1 ? 3 : 2));
export const heatPerDay = (value) => `${f.degreeHours(value)}`;
/** A figure and what stands below it. */
export const figure = (main, below = '') => ({ main, below });

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

/** Seeds that nobody looked at are not counted as failures. */
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

export const dayNumber = (days) => f.number(days, days < 10 && !Number.isInteger(days) ? 1 : 0);

function sowingHeat({ heat, lastCheckDay }) {
  if (!heat) return figure(known(lastCheckDay) ? 'not known' : 'not checked');
  if (heat.coveredHours === 0) return figure('not measured');
  const open = heat.upper - heat.lower;
  const bounds = open > 0.005 * heat.upper ? `; ${range([heat.lower, heat.upper], f.degreeHoursNumber)}` : '';
  return figure(f.degreeHours(heat.degreeHours), `day ${dayNumber(lastCheckDay)}${bounds}`);
}

/** The methods behind the figures. */
export function smallPrint(report) {
  const { heat } = report;
  return [
    'Counts are those of the checks until the end of the season; a seed germinated at some time between two checks. Seeds that nobody looked at are left out of fractions and comparisons. Intervals are 95 %: fractions after Wilson, differences after Newcombe; every seed counts as one trial.',
    `Heat is degree-hours: of sowings above the base of the species, of containers above their own base${heat ? ` (mostly ${f.temperature(heat.base)})` : ''}; what was not measured adds none, and the range below says what it can have been.`,
  ];
}
