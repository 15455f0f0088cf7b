// The English texts of this page.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    seasonReport: 'Season report',
    spring2026: 'Spring 2026',
    tally: '← Tally',
    printOrSaveAsPdf: 'Print or save as PDF',
    from: 'From',
    toThatDayIncluded: 'To, that day included',
    showThisSpan: 'Show this span',
    askingTheService: 'Asking the service …',
    keepThisSeason: 'Keep this season',
    keepsTheReportAsIt: 'Keeps the report as it is now. Later seasons are compared with the kept report.',
    name: 'Name',
    remarkIfAny: 'Remark (if any)',
    keptSeasons: 'Kept seasons',
  },

  // comparison-words.js
  differencePoints: 'Difference, points',
  pFisher: 'p (Fisher)',
  seedsEachToTell: 'Seeds needed in each',
  less: (firstName, secondName) => `${firstName} minus ${secondName}`,
  remainingSeedsWatchedForAnd: (speciesName, firstDays, secondDays) =>
    `${speciesName}; remaining seeds watched for ${firstDays} and ${secondDays} days`,
  theSmallerHad: (fewestSeeds) => `the smaller had ${fewestSeeds}`,
  containers: 'Containers',
  hours: 'Hours',
  heatADay: 'Heat a day',
  tooFewForAnInterval: 'too few for an interval',
  then: 'Then',
  now: 'Now',
  nowLessThenPoints: 'Change, points',
  ofWord: (germinated, sown) => `${germinated} of ${sown}`,
  heatADayInThe: (then, name, now) => `Heat a day in the containers with seeds: ${then} in ${name}, ${now} now.`,
  theHeatOfCannotBe: (name) =>
    `The heat of ${name} cannot be compared: it was not measured in both seasons, or summed above another base.`,

  // container-rows.js
  insideTheLimits: 'Inside the limits',
  coldestHottest: 'Coldest, hottest',
  tooCold: 'Too cold',
  tooHot: 'Too hot',
  tooDry: 'Too dry',
  lightLeaks: 'Light leaks',
  opened: 'Opened',
  measured: 'Measured',
  noHeatSource: 'no heat source',
  to: (number, hottest) => `${number} to ${hottest}`,
  never: 'never',
  notHeard: (silent) => `${silent} not heard`,
  longest: (longestHours) => `longest ${longestHours}`,
  whileOpen: (duringOpenings) => `${duringOpenings} while open`,
  lost: (degreeHoursLost) => `${degreeHoursLost} lost`,
  daylight: 'daylight',
  lamp: 'lamp',
  notKnown: 'not known',
  none: 'none',
  dayCount: { one: 'day', other: 'days' },
  on: (part, counted) => `${part} on ${counted}`,

  // kept.js
  seedCount: { one: 'seed', other: 'seeds' },
  sownGerminated: (counted, germinated) => `${counted} sown, ${germinated} germinated`,
  nothingSown: 'nothing sown',
  reallyRemoveIt: 'Really remove it?',
  remove: 'Remove',

  // lessons.js
  otherCount: { one: 'other', other: 'others' },
  otherSowingCount: { one: 'other sowing', other: 'other sowings' },
  lightDayCount: { one: 'day', other: 'days' },
  sameForOthers: (counted) => ` The same applies to ${counted}.`,
  sameForOthersInTotal: (counted, heat) => ` The same applies to ${counted}: ${heat} in total.`,
  n95Interval: (low, high) => ` (95 %: ${low} to ${high})`,
  heatOfAverageDays: (days) => `, the heat of ${days} average days`,
  lessonCold: (name, low, share, hours, lost, days) =>
    `${name} was below ${low} for ${share} of the measured time (${hours}). Compared with that limit it lost ${lost}${days}.`,
  atMost: (hottest) => `, at most ${hottest}`,
  lessonHot: (name, high, share, hours, most) =>
    `${name} was above ${high} for ${share} of the measured time (${hours})${most}.`,
  lessonDry: (name, low, share, hours) =>
    `${name} was below ${low} humidity for ${share} of the measured time (${hours}).`,
  lessonDaylight: (name, days, dose) =>
    `Daylight entered ${name} on ${days} (${dose}). Turn the seam or the edge of the lid away from the window.`,
  lessonLamp: (name, days, dose) =>
    `Lamp light entered ${name} on ${days} (${dose}). Check which lamp was on, or record openings.`,
  lessonLight: (name, days, dose) =>
    `Light from an unknown source entered ${name} on ${days} (${dose}). Check that the lid is tight, and record openings.`,
  lessonUnheard: (name, gap, all, least, most) =>
    `${name} had no readings for ${gap} of ${all}: its heat lies between ${least} and ${most}.`,
  nameAndOthers: (name, others) => `${name} and ${others} more`,
  lessonBlind: (names) => `Seeds were kept in ${names} without temperature readings: their heat is not known.`,
  allOfThem: 'all',
  ofThem: (number) => `${number} of them`,
  becauseOf: (part, reason) => `${part} for the reason “${reason}”`,
  shareAlsoAbove: (share, counted) => ` The share was also above ${share} for ${counted}.`,
  lessonCulled: (discarded, seeds, name, why) => `${discarded} of ${seeds} seeds of ${name} were discarded, ${why}.`,
  lessonSowings: (better, worse, difference, interval) =>
    `${better} did better than ${worse} by ${difference} percentage points${interval}. This difference is unlikely to be chance alone.`,
  watchedForDifferentTimes: (better, worse) => `They were watched for different times: ${better} and ${worse} days.`,
  causeNotShown: 'The counts do not show the cause.',
  clearAmongPairs: (pairs, clear) =>
    `Clear differences among ${pairs} compared pairs: ${clear}; about one pair in twenty would differ so by chance alone.`,
  noClearDifference: (first, second) => `No clear difference between ${first} and ${second}.`,
  sameFractionOfBoth: 'The same fraction of both germinated. This does not prove that they are equal.',
  seedsToTell: (needed, smaller) =>
    `To find a difference of this size with a power of 80 %, each sowing needs about ${needed} seeds; the smaller one had ${smaller}.`,
  lessonSources: (more, gain, less, interval) => `${more} gave ${gain} a day more than ${less}${interval}.`,
  betterThanIn: (name, season, difference, interval) =>
    `${name} did better than in ${season} by ${difference} percentage points${interval}.`,
  worseThanIn: (name, season, difference, interval) =>
    `${name} did worse than in ${season} by ${difference} percentage points${interval}.`,
  nowAndThen: (now, then) => `Now ${now} germinated, then ${then}.`,

  // pictures.js
  timeTooCold: 'Share of the measured time below the lower limit',
  timeTooHot: 'Share of the measured time above the upper limit',
  timeTooDry: 'Share of the measured time below the limit of humidity',
  timeWithoutReadings: 'Share of the time without readings',
  timeWithReadings: 'Share of the time with readings, of containers that held seeds',
  daysWithSuchLight: 'Days with such light',
  seedsDiscarded: 'Share of the seeds discarded before they germinated',
  differenceWithInterval: 'Difference in percentage points with its 95 % interval; the upright line is no difference',
  heatADayWithInterval: 'Heat a day with its 95 % interval',
  germinatedThenAndNow: 'Share of the seeds that germinated',
  inSeason: (species, season) => `${species}, ${season}`,
  inThisSeason: (species) => `${species}, this season`,

  // report.js
  season: (span) => `Season ${span}`,
  keptOnTheFiguresAre: (keptAt) => `Kept on ${keptAt}, with the figures of that day.`,
  lessons: 'Lessons',
  noLessonFoundByThe: 'The rules of this page found no lesson.',
  sownAndComeUp: 'Sown and come up',
  belowAFractionStandsIts: 'The 95 % interval stands below each fraction.',
  sowing: 'Sowing',
  noContainerHeldSeedsOr: 'No container held seeds or was measured in this season.',
  overTheTimeThatWas: 'Only measured time counts.',
  container: 'Container',
  pairCount: { one: 'pair', other: 'pairs' },
  withFewerSeedsLeftOut: (counted) => ` ${counted} with fewer seeds left out.`,
  sowingsOfOneSpeciesAn: (more) => `Sowings of one species. An interval with zero in it shows no difference.${more}`,
  sowings: 'Sowings',
  heatSourcesAllAbove: (base) => `Heat sources, all above ${base}.`,
  heatSource: 'Heat source',
  compared: 'Compared',
  againstEarlierSeasons: 'Against earlier seasons',
  seedsOfAllSowingsOf: 'Seeds of all sowings of a species together.',
  species: 'Species',
  noSpeciesWasSownIn: 'No species was sown in both seasons.',

  // season.js
  removed: (name) => `Removed: ${name}.`,
  kept: (name) => `Kept: ${name}.`,

  // words.js
  under0001: 'under 0.001',
  n95To: (points, low, high) => `${points} % (95 %: ${low} to ${high} %)`,
  nothingWasSownInThis: 'Nothing was sown in this season.',
  recordASowing: 'Record a sowing on the Tally',
  inSowings: (sowings) => ` in ${sowings} sowings`,
  sownNotCheckedYet: (name, counted, many) => `${name}: ${counted} sown${many}, not checked yet.`,
  moreWereNotCheckedYet: (unchecked) => `; ${unchecked} more were not checked yet`,
  ofGerminated: (name, germinated, counted, fraction, part, more) =>
    `${name}: ${germinated} of ${counted} germinated, ${fraction}${part}${more}.`,
  earlierSowingCount: { one: 'earlier sowing', other: 'earlier sowings' },
  is: 'is',
  are: 'are',
  stillHadSeedsInA: (counted, part) =>
    `${counted} still had seeds in a container when the season began, and ${part} not counted here.`,
  sown: 'Sown',
  seeds: 'Seeds',
  germinated: 'Germinated',
  firstFound: 'First found',
  halfBy: 'Half by',
  culled: 'Culled',
  pottedOn: 'Potted on',
  left: 'Left',
  heatUntilTheLastCheck: 'Heat until the last check',
  notLookedAt: (notLookedAt) => `${notLookedAt} not looked at`,
  notChecked: 'not checked',
  day: (firstFoundDay) => `day ${firstFoundDay}`,
  notHalf: 'not half',
  alive: (alive) => `${alive} alive`,
  notMeasured: 'not measured',
  day2: (lastCheckDay, bounds) => `day ${lastCheckDay}${bounds}`,
  countsAreThoseOfThe:
    'Counts are those of the checks until the end of the season; a seed germinated at some time between two checks. Seeds that nobody looked at are left out of fractions and comparisons. Intervals are 95 %: fractions after Wilson, differences after Newcombe; every seed counts as one trial.',
  mostly: (base) => ` (mostly ${base})`,
  heatIsDegreeHoursOf: (part) =>
    `Heat is degree-hours: of sowings above the base of the species, of containers above their own base${part}; time without readings adds none, and the range below says how much it could have added.`,
  cullReasons: { mould: 'mould', dead: 'dead', empty: 'empty', eaten: 'eaten', taken: 'taken out', other: 'other' },
};
