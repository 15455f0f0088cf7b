// The English texts of this page.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    tally: 'Tally',
    howToCount: 'How to count',
    askingTheService: 'Asking the service …',
    nextChecks: 'Next checks',
    species: 'Species',
    room: 'Room',
    checksDueAsACalendar: 'Checks due as a calendar',
    sowings: 'Sowings',
    compareTwoSowings: 'Compare two sowings',
    compareHeatSources: 'Compare heat sources',
    heatOrDays: 'Heat or days?',
    theRecordAsAFile: 'The record as a file',
    seasonReportAllOfIt:
      '<a href="/season.html">Season report</a>: all of it on one page to print, and to keep for later seasons.',
    takeItAlong: 'Take it along, or move it to another installation: <a href="/files.html#record-part">Files</a>.',
  },

  // check-fields.js
  newlyGerminated: 'Newly germinated',
  pottedOn: 'Potted on',
  whyCulled: (number) => `Why culled, ${number}`,
  culled: 'Culled',
  hadGerminatedBefore: 'had germinated before',
  culledForAnotherReasonToo: 'Culled for another reason too',
  rootLengthsCmOptional: 'Root lengths (cm, optional)',
  oneForEachSeedMeasured: 'One for each seed measured: 2.5; 3; 4',
  rootLengthsIsNotA: (part) => `Root lengths: “${part}” is not a length in cm.`,

  // check-row.js
  checkGroup: (id) => `Check group ${id}`,
  check: 'Check',

  // compare-words.js
  nothingToCompareYet: 'Nothing to compare yet.',
  nobodyHasLookedAtThe: (join) => `Nobody has looked at the seeds of ${join}.`,
  theFirstLessTheSecond: (difference) => `The first minus the second: ${difference} percentage points; `,
  anythingFromToFitsThese: (low, high, fisherP) =>
    `anything from ${low} to ${high} fits these counts (95 %, Newcombe). Fisher's exact test: p = ${fisherP}.`,
  bothFractionsAreTheSame: 'Both fractions are the same so far; that is no proof that the two are alike.',
  seedCount: { one: 'seed', other: 'seeds' },
  toFindADifferenceOf: (counted, sown, sown2) =>
    `To find a difference of this size in four of five trials, each would need about ${counted}; they had ${sown} and ${sown2}.`,
  paceAndFinalFractionTogether: (p) => `Pace and final fraction together (log-rank on intervals): p = ${p}.`,
  notOverYetAndSeeds: (remaining, remaining2, dayWords, dayWords2) =>
    `Not over yet: ${remaining} and ${remaining2} seeds still sound, watched until ${dayWords} and ${dayWords2} on average. `,
  aSowingThatWasWatched: 'A sowing that was watched for longer had more time.',
  ofWord: (name, germinated, sown, fraction, others) => `${name}: ${germinated} of ${sown}, ${fraction}${others}.`,
  didBetterByMoreThan: (part) => `${part} did better. Chance alone hardly explains the difference.`,
  theseTwoSayAlmostNothing: 'These two say almost nothing about which is better.',
  theseTwoDoNotTell: 'These two do not tell for sure which is better.',
  bestAndWorstGroupAre: (number) => `Best and worst group are ${number} percentage points apart.`,
  groupCount: { one: 'group', other: 'groups' },
  seedTestingToleratesPointsFor: (number, counted) =>
    `Seed testing tolerates ${number} points for ${counted} of this size.`,
  exact: 'exact',
  chanceAloneMakesGroupsDiffer: (pWords, part) =>
    `Chance alone makes groups differ at least so much with p = ${pWords} (${part} test).`,
  allGroupsTogetherOfWhen: (germinated, sown, fraction) =>
    `All groups together: ${germinated} of ${sown}, ${fraction} when their differences are allowed for.`,
  withAllOrNoneGerminated: 'With all or none germinated, nothing could have shown a difference.',
  smallDifferencesCanStayUnseen: 'Small differences can stay unseen with so few seeds.',
  theGroupsDifferByMore: 'The groups differ by more than chance allows: look for a cause in a container.',
  theGroupsDoNotDiffer: 'The groups do not differ by more than chance allows.',
  cochranMantelAndHaenszel: 'Cochran, Mantel and Haenszel',
  exactTest: 'exact test',
  withinEachLotLessPercentage: (first, second, difference, low, high, part, pWords) =>
    `Within each lot, ${first} less ${second}: ${difference} percentage points over all (95 %: ${low} to ${high}; ${part}: p = ${pWords}).`,
  commonOddsRatio95To: (oddsRatio, number, number2) =>
    `Common odds ratio ${oddsRatio} (95 %: ${number} to ${number2}).`,
  theLotsDisagreeAboutThe: (p) =>
    `The lots disagree about the difference (p = ${p}): do not rely on one common figure.`,
  theLotsAgreeAsFar: (p) => `No sign that the lots disagree (p = ${p}).`,
  oneLotIsOneTrial: 'One lot is one trial: the difference may be that of the containers. Repeat it with another lot.',
  n95To: (signedPoints, signedPoints2) => ` (95 %: ${signedPoints} to ${signedPoints2})`,
  lotsAsUnitsMean: (difference, part) => `Lots as units: mean ${difference}${part}`,
  lotCount: { one: 'lot', other: 'lots' },
  withNoPCanBe: (part, counted, leastFlipsP) => `${part}; with ${counted} no p can be under ${leastFlipsP}.`,
  seedsOfOneContainerShare:
    'Seeds of one container share its warmth and moisture, so the first p can be too small. Sources also differ in light, drying and place.',
  andTheLotsDisagree: (first, second) => `${first} and ${second}: the lots disagree.`,
  didBetterThanWithinThe: (better, part) => `${better} did better than ${part}, within the same lots.`,
  noClearDifferenceYetBetween: (first, second) => `No clear difference yet between ${first} and ${second}.`,
  under0001: 'under 0.001',

  // compare.js
  thisSowing: 'This sowing',
  sowingInSown: (name, places, moment) => `${name}, in ${places}, sown ${moment}`,
  withThisOne: 'with this one',
  compare: 'Compare',
  chooseTwoDifferentSowings: 'Choose two different sowings.',

  // course-view.js
  overDays: 'Over days',
  overHeat: 'Over heat',
  germinated: 'germinated',
  culled2: 'culled',
  stillSound: 'still sound',
  theCurveBeginsWithThe: 'The curve begins with the first check.',
  drawTheCurve: 'Draw the curve',
  fullLineFoundGerminatedBy:
    'Full line: found germinated by then. Dashed: the earliest that they may have germinated, just after the check before. Shaded: not known.',
  day: (day, germinatedSoFar) => `day ${day}: ${germinatedSoFar}`,
  germinatedOfSown: (sown, join) => `Germinated of ${sown} sown: ${join}.`,
  germinatedByDaySinceSowing: 'Germinated, by day since sowing',
  daysSinceSowing: 'days since sowing',
  whatWasCulledIsLeft: ' What was culled is left out from then on, so that the curve can end above the plain fraction.',
  eachCheck: 'Each check',
  dayGroup: (day, group) => `day ${day}, group ${group}`,
  soFarOfTheSowing: 'So far, of the sowing',
  theSameAsATable: 'The same as a table',

  // due-days.js
  overdue: 'Overdue',
  today: 'Today',
  tomorrow: 'Tomorrow',

  // due-list.js
  allSpecies: 'All species',
  allRooms: 'All rooms',
  group: (container, speciesName, id, late) => `${container}: ${speciesName}, group ${id}${late}`,

  // entries.js
  withdrawn: (reason) => ` Withdrawn: ${reason}.`,
  corrected: (reason) => ` Corrected: ${reason}.`,
  aCorrection: ' (a correction)',
  correct: 'Correct',
  withdraw: 'Withdraw',
  whyOptional: 'Why (optional)',
  doneAt: 'Done at',
  alive: 'Alive',
  correctThisEntry: 'Correct this entry',
  theOldEntryStaysIn: (stamp, entry) => `${stamp}. ${entry}. The old entry stays in the record, crossed out.`,
  correctIt: 'Correct it',
  correctionOf: (entry) => `Correction of: ${entry}`,
  withdrawThisEntry: 'Withdraw this entry?',
  itStaysInTheRecord: (stamp, entry) =>
    `${stamp}. ${entry}. It stays in the record, crossed out, and no longer counts.`,
  withdrawIt: 'Withdraw it',
  withdrawalOf: (entry) => `Withdrawal of: ${entry}`,

  // entry-words.js
  intoGroup: (counted, container, group) => `${counted} into ${container} (group ${group})`,
  sown: (join) => `Sown: ${join}`,
  putWithGroup: (joinTo) => `, put with group ${joinTo}`,
  nowGroup: (splitInto) => `, now group ${splitInto}`,
  groupMovedTo: (group, move, to, join, part) => `Group ${group}: ${move} moved to ${to}${join}${part}`,
  checkOfGroup: (group, check) => `Check of group ${group}: ${check}`,
  seedlingsOfGroupAlive: (group, alive) => `Seedlings of group ${group}: ${alive} alive`,
  groupNamed: (group, name) => (name ? `Group ${group} named “${name}”` : `Name of group ${group} taken away`),
  sowingNamed: (sowing, name) => (name ? `Sowing ${sowing} named “${name}”` : `Name of sowing ${sowing} taken away`),
  withdrawn2: 'Withdrawn',
  allSeeds: 'all seeds',
  ungerminated: (ungerminated) => `${ungerminated} ungerminated`,
  germinated2: (germinated) => `${germinated} germinated`,
  noSeeds: 'no seeds',
  newlyGerminated2: (germinated) => `${germinated} newly germinated`,
  hadGerminated: ', had germinated',
  culled3: (count, part, part2) => `${count} culled (${part}${part2})`,
  pottedOn2: (pottedOn) => `${pottedOn} potted on`,
  aRoot: 'a root',
  roots: 'roots',
  ofCm: (part, join) => `${part} of ${join} cm`,
  nothingNew: 'nothing new',

  // forecast-words.js
  theNextOf: (seeds, remaining) => `the next ${seeds} of ${remaining}`,
  to: (earliest, latest) => `${earliest} to ${latest}`,
  notBeforePerhapsNever: (earliest) => `not before ${earliest}, perhaps never`,
  shouldHaveComeByNow: (next, latest) => `${next} should have come by now (${latest})`,
  comes: 'comes',
  come: 'come',
  around: (next, part, longDay, latest) => `${next} ${part} around ${longDay} (${latest})`,
  today2: 'today',
  ifItStaysAsWarm: (heatPerDay, when) => `If it stays as warm as in the last days (${heatPerDay}), ${when}.`,
  bestDayForTheNext: (day, why) => `Best day for the next check: ${day}${why}.`,
  aDay: (likely) => `${likely} a day`,
  toADay: (from, to, heatUnit) => `${from} to ${to} ${heatUnit} a day`,

  // forecast.js
  noForecastByHeat: 'No forecast by heat',
  noForecastByHeatFor: 'No forecast by heat for other groups',
  groupIn: (id, container) => `Group ${id} in ${container}`,
  check2: (where, stamp, why) => `${where}: check ${stamp}, ${why}.`,

  // form-parts.js
  aWholeNumber1Or: (title) => `${title}: a whole number, 1 or more, is missing.`,

  // group-sheets.js
  groupUngerminatedGerminated: (speciesName, id, ungerminated, germinated) =>
    `${speciesName}, group ${id}: ${ungerminated} ungerminated, ${germinated} germinated in there.`,
  rootsRemarkPictureAnotherTime: 'Roots, remark, picture, another time',
  group2: (id, check) => `Group ${id}: ${check}`,
  there: 'There',
  ungerminated2: 'Ungerminated',
  germinated3: 'Germinated',
  asAGroupOfTheir: 'as a group of their own',
  togetherWithGroup: (id) => `together with group ${id}`,
  moveSeeds: 'Move seeds',
  groupNowIn: (id, container) => `Group ${id}, now in ${container}.`,
  moveThem: 'Move them',
  to2: 'To',
  anotherTime: 'Another time',
  groupMovedTo2: (id, part, names) => `Group ${id}: ${part} moved to ${names}`,
  countSeedlings: 'Count seedlings',
  seedlingCount: { one: 'seedling', other: 'seedlings' },
  groupPottedOn: (id, counted) => `Group ${id}: ${counted} potted on.`,
  groupSeedlingsAlive: (id, number) => `Group ${id}: ${number} seedlings alive`,

  // heat-course.js
  addingUpTheHeat: 'Adding up the heat …',
  barsWithEndsHowFar: 'Bars with ends: how uncertain the heat at a check is, because of gaps and sensor errors.',
  smoothLineTheFittedCurve: 'Smooth line: the fitted curve.',
  theHeavyBarOnIt: 'The heavy bar on it is the heat at which half had germinated, with its 95 % interval.',
  germinatedByHeat: (course) => `Germinated, by heat ${course}`,
  seedsWereSown: (headline, sown) => `${headline} ${sown} seeds were sown.`,
  heatIn: (heatUnit, course) => `Heat in ${heatUnit} ${course}`,
  seeds: 'Seeds',
  group3: (count, part, group) => `${count} ${part}, group ${group}`,
  notYetAt: 'Not yet at',
  hardlyMeasured: 'hardly measured',
  foundBy: 'Found by',
  notSeen: 'not seen',
  to3: (likely, least, most) => `${likely} (${least} to ${most})`,

  // heat-or-days.js
  workingItOut: 'Working it out …',
  daysKeptBeforeSowing: 'Days kept before sowing',
  theSowingsCounted: 'The sowings counted',
  sowingsByDaysKept: 'Sowings by days kept',
  lot: 'Lot',
  lot2: (lot) => `lot ${lot}`,
  daysKept: 'Days kept',
  ofWord2: (germinated, seeds) => `${germinated} of ${seeds}`,

  // heat-words.js
  noMoreThanAt: (ceiling) => `, no more than at ${ceiling}`,
  above: (base, part) => `above ${base}${part}`,
  n95To2: (low, high, unit) => `95 %: ${low} to ${high}${unit}`,
  n95OrMoreWithNo: (low, unit) => `95 %: ${low}${unit} or more, with no upper end`,
  n95OrLessWithNo: (high, unit) => `95 %: ${high}${unit} or less, with no lower end`,
  itsIntervalIsOpenAt: 'its interval is open at both ends',
  readingsOfUpTo: (words) => `Readings of up to ${words}.`,
  notKnownYetTheHeat: 'Not known yet: the heat that half of the seeds need.',
  everGerminateWouldNeed: 'ever germinate would need',
  germinatedNeeded: 'germinated needed',
  halfOfThoseThatAbove: (part, medianHeat, base, medianInterval) =>
    `Half of those that ${part} ${medianHeat} above ${base} (${medianInterval}).`,
  thisIsAnExtrapolationThe: (watched) => `This is an extrapolation: the seeds have received ${watched} so far.`,
  wouldNeed: 'would need',
  needed: 'needed',
  theFirstTenthOfThem: (part, heatForTenth) => `The first tenth of them ${part} ${heatForTenth}.`,
  assumptionEverySeedGerminates: 'Assumption: every seed germinates in the end.',
  inTheEndGerminate: (finalFraction, finalFractionInterval) =>
    `In the end ${finalFraction} % germinate (${finalFractionInterval}).`,
  theCountsFollowTheHeat: (base) => `The counts follow the heat above ${base} better than the days.`,
  theCountsFollowTheDays: (base) => `The counts follow the days better than the heat above ${base}.`,
  sowingCount: { one: 'sowing', other: 'sowings' },
  germinatedOfIn: (germinated, seeds, counted) => `${germinated} germinated of ${seeds}, in ${counted}`,
  byHeat: 'By heat',
  halfByAbove: (medianHeat, base, medianInterval) => `half by ${medianHeat} above ${base} (${medianInterval})`,
  byDays: 'By days',
  halfByDay: (medianDays) => `half by day ${medianDays}`,
  halfOnlyFarBeyondThe: 'half only far beyond the days that were watched',
  assumedForHeat: 'Assumed for heat',
  assumedForDays: 'Assumed for days',
  fitAicLowerIsBetter: 'Fit (AIC, lower is better)',
  heatDays: (aic, aic2) => `heat ${aic}, days ${aic2}`,
  baseTemperatureByLikelihood: 'Base temperature by likelihood',
  baseTemperatureByRegression: 'Base temperature by regression',
  cannotBeEstimatedFromThese: 'cannot be estimated from these data',
  thisServiceCannotTellThe: 'This service cannot tell the heat of these seeds.',
  theHeatIsNotAvailable:
    'The heat is not available now, because the readings cannot be read. Open this part again to retry.',
  theHeatCannotBeShown: (message) => `The heat cannot be shown: ${message}`,

  // likelihood.js
  highestAtThoseAboveThe: (best) => `Highest at ${best}; those above the line fit the counts too.`,
  theCurveIsTooFlat: 'The curve is too flat or too one-sided to give a base temperature.',
  howWellEachBaseTemperature: 'How well each base temperature fits the counts',
  baseTemperature: (unitName) => `base temperature, ${unitName}`,
  best: 'best',
  theHigherTheBetterThat: (base, part) =>
    `The higher, the better that base fits all counts. What lies above the dashed line is not ruled out (95 %). Dotted: the base in use, ${base}. ${part}`,
  likelihoodOfEachBaseTemperature: 'Likelihood of each base temperature',
  base: 'Base',
  logLikelihood: 'Log-likelihood',
  impossible: 'impossible',

  // lot-form.js
  species: 'Species',
  addTheLot: 'Add the lot',
  seedsGathered: 'Seeds gathered',
  gatheredOn: 'Gathered on',
  gatheredFrom: 'Gathered from',
  theGround: 'the ground',
  thePlant: 'the plant',
  notKnown: 'not known',
  howKeptOptional: 'How kept (optional)',
  forInstanceMoistSand5: 'For instance: moist sand, 5 °C.',
  someTreesAreProtectedAnd:
    'Some trees are protected, and collecting seed may need a permit. Ask the owner of the land, and look up the law before you gather.',
  nameOptional: 'Name (optional)',
  accessionNumber: 'Accession number (optional)',
  theNumberInTheSeed: 'The number in the register of a seed bank.',
  theLotIsIn: 'The lot is added.',

  // names-sheet.js
  names: 'Names',
  emptyForNone: 'Leave a field empty for no name.',
  nameOfTheSowing: 'Sowing',
  nameOfLot: (lot) => `Seed lot ${lot}`,
  nameOfGroup: (group, container) => `Group ${group}, in ${container}`,

  // photo.js
  thisBrowserCannotReadThat: 'This browser cannot read that file as a picture.',
  thePictureCannotBeMade: 'The picture cannot be made small enough.',
  pictureOptional: 'Picture (optional)',
  picture: (words) => `Picture: ${words}`,
  newPicture: 'New picture',
  addAPicture: 'Add a picture',

  // record.js
  whatNext: 'What next',
  howTheyCameUp: 'How they came up',
  seedsToGatherNextTime: 'Seeds to gather next time',
  theRecord: 'The record',
  indicesForPublications: 'Indices for publications',
  tooFew: 'too few',
  halfTooFar:
    'half would germinate only after more than twice the time of the last check: this is too far beyond the data for an estimate',
  noCurveCanBeFitted: (reason) => `No curve can be fitted to these counts: ${reason}.`,
  inTheEndGerminateThe: (finalFraction) =>
    `In the end ${finalFraction} germinate; the interval is over all curves that fit about as well.`,
  theseCountsDoNotShow:
    'These counts do not show yet how many will germinate in the end: this curve ends with all of them.',
  halfOfThoseThatEver: (median) => `half of those that ever germinate by day ${median}`,
  halfOfThoseThatEver2:
    'half of those that ever germinate only after the last check, which is a guess beyond what was seen',
  bestOfSixFittedCurves: (name, half, final) => `Best of six fitted curves: ${name}; ${half}. ${final}`,
  groupsAgainstEachOther: 'Groups against each other',

  // scanned.js
  noLivingSeedsInIt: 'No living seeds in it.',
  thereIsNoSuchContainer: 'There is no such container.',
  group4: (speciesName, id, counted) => `${speciesName}, group ${id}, ${counted}`,

  // seed-words.js
  mould: 'mould',
  dead: 'dead',
  empty: 'empty',
  eaten: 'eaten',
  takenOut: 'taken out',
  other: 'other',
  n95To3: (low, high) => `95 %: ${low} to ${high} %`,
  day2: (days) => `day ${days}`,
  toDays: (low, high) => `${low} to ${high} days`,
  groupWithName: (group, name) => `${group} “${name}”`,
  checkOverdueByDays: (part) => `check overdue by ${part} days`,
  checkOverdueByADay: 'check overdue by a day',
  checkDueToday: 'check due today',
  checkDueTomorrow: 'check due tomorrow',
  checkDueInDays: (days) => `check due in ${days} days`,
  notLookedAtYet: (counted) => `${counted} not looked at yet`,
  sownNotLookedAtYet: (counted) => `${counted} sown, not looked at yet`,
  ofGerminated: (germinated, looked, germinated2, others) =>
    `${germinated} of ${looked} germinated: ${germinated2}${others}`,
  theSpeciesProfileGivesUp: (giveUpDays, dayWords) =>
    `The species profile gives up after ${giveUpDays}; this is ${dayWords}.`,
  commonPracticeIsToGive: (dayWords) => `Common practice is to give up after about six weeks; this is ${dayWords}.`,
  doneNoSoundUngerminatedSeed: 'Done: no sound ungerminated seed is left.',
  theCountsCannotTellYet: 'The counts cannot tell yet whether more will come.',
  tooFewGerminatedSoFar: 'Too few germinated so far, or the checks do not show yet that it levels off.',
  atLeastOneMoreWithin: (soon, soonLimits) =>
    `At least one more within a week of the last check: ${soon} (${soonLimits}).`,
  withThoseAmongThe: (notLookedAt) => `, with those among the ${notLookedAt}`,
  atLeastOneMoreEver: (ever, everLimits, expectedMore, remaining, part) =>
    `At least one more will germinate: ${ever} (${everLimits}); about ${expectedMore} more to be expected of ${remaining} left${part}.`,
  assumed: (assumption) => `Assumed: ${assumption}`,
  over99: 'over 99 %',
  under1: 'under 1 %',
  youCanStopItIs: 'You can stop: it is unlikely that any more will come.',
  goOnMoreAreLikely: 'Go on: more are likely within a week.',
  goOnIfYouHave: 'Go on if you have the patience: more are likely, but hardly within a week.',
  openTheCountsLeaveIt: 'Open: the counts leave it uncertain whether more will come.',
  moreArePossibleButNot: 'More are possible but not likely: go on or stop, as you like.',
  days: (number) => `${number} days`,
  firstGerminated: 'First germinated',
  foundOn: (firstTime) => `found on ${firstTime}`,
  meanGerminationTime: 'Mean germination time',
  betweenTheChecksByThe: (meanBetween, meanTime) =>
    `${meanBetween}, between the checks (${meanTime} by the day of the check)`,
  halfOfThoseGerminated: 'Half of those germinated',
  halfOfThoseSown: 'Half of those sown',
  notReached: 'not reached',
  spreadStandardDeviation: 'Spread (standard deviation)',
  speedMaguire: 'Speed (Maguire)',
  seedsADay: (speed) => `${speed} seeds a day`,
  rateIndex: 'Rate index',
  aDay2: (rateIndexPercent) => `${rateIndexPercent} % a day`,
  synchrony0To1: 'Synchrony (0 to 1)',

  // seeds-to-gather.js
  shownAfterTheFirstCheck: 'Shown after the first check.',
  sowAbout: (counted) => `Sow about ${counted}`,
  pottedOn3: 'potted on',
  forWithNineChancesIn: (wanted, part) =>
    `: at least ${wanted} will then be ${part}, in nine of ten cases. Assumed: the next lot is like this one, and its fraction as uncertain as this result leaves it (beta-binomial, Jeffreys' prior).`,
  fromThisSowingAloneOf: (hits, part, sown) => `From this sowing alone: ${hits} ${part} of ${sown} looked at.`,
  seedlingsWantedInPots: 'Seedlings wanted in pots',
  germinatedSeedsWanted: 'Germinated seeds wanted',
  howMany: 'How many?',

  // sheet.js
  oneFewer: 'One fewer',
  oneMore: 'One more',
  writeItDown: 'Write it down',
  cancel: 'Cancel',
  remarkOptional: 'Remark (optional)',
  notNowButAt: 'Not now, but at',

  // sources.js
  seedsOfOneLotOn: 'Seeds of one lot on two heat sources are compared within the lot, over all lots and seasons.',
  itTakesOneLotWith:
    'This needs one lot with seeds on two heat sources, each checked once. Groups that changed the source, or were split or joined, are left out.',
  containerCount: { one: 'container', other: 'containers' },
  ofWord3: (germinated, sown, counted) => `${germinated} of ${sown} (${counted})`,
  theLotsCounted: 'The lots counted',
  germinatedByLotAndHeat: 'Germinated, by lot and heat source',
  lot3: (name, lot) => `${name} (lot ${lot})`,

  // sowing-cards.js
  sowing: (name, id) => `${name}, sowing ${id}`,
  lotNumber: (lot) => `Lot ${lot}`,
  whatNextCurveRecord: 'What next, curve, record',
  undoTheLastEntry: 'Undo the last entry',
  sownDay: (moment, floor) => `Sown ${moment}, day ${floor}`,
  nowUngerminatedGerminated: (number, number2) => `Now: ${number} ungerminated, ${number2} germinated, `,
  pottedOnAliveCulled: (number, alive, number2) => `${number} potted on (${alive} alive), ${number2} culled`,
  group5: (word, id) => `${word}, group ${id}`,
  move: 'Move',
  seedlings: 'Seedlings',
  groupUngerminatedGerminated2: (id, ungerminated, germinated) =>
    `group ${id}: ${ungerminated} ungerminated, ${germinated} germinated`,
  group6: (id, counted) => `group ${id}: ${counted}`,
  entryCount: { one: 'entry', other: 'entries' },
  waitingToBeSent: (counted) => `${counted} waiting to be sent.`,

  // sowing-form.js
  container: 'Container',
  container2: (number) => `Container ${number}`,
  seedsInIt: 'Seeds in it',
  seedsInContainer: (number) => `Seeds in container ${number}`,
  writeTheSowingDown: 'Write the sowing down',
  seedLot: 'Seed lot',
  alsoIntoAnotherContainer: 'Also into another container',
  sownAtEmptyNow: 'Sown at (empty: now)',
  sownTheNextCheckIs: 'Sown. The next check is listed above.',

  // species-form.js
  baseTemperature2: 'Base temperature',
  belowThisSeedsGainNothing: 'Below this, no heat counts.',
  bestTemperature: 'Best temperature',
  theyGerminateFastestAtIt: 'Seeds germinate fastest at this temperature.',
  ceilingTemperature: 'Ceiling temperature',
  aboveThisNoMoreThan: 'Above this temperature, heat counts as if it were exactly this warm.',
  firstGerminatesAfterDays: 'First germinates after (days)',
  tellsWhenTheFirstCheck: 'Tells when the first check is due.',
  usuallyGivenUpAfterDays: 'Usually given up after (days)',
  sixWeeksAreCommonPractice: 'Six weeks are common practice.',
  usuallyGerminates: 'Usually germinates (%)',
  ofTheSeedsSown: 'Of the seeds sown.',
  pottedOnWithRootsOf: 'Potted on with roots of (cm)',
  seedKeepsDays: 'Seed keeps (days)',
  daysAfterGatheringTheLot: 'Days after gathering. The lot shows the days left.',
  keepTheChanges: 'Keep the changes',
  addTheSpecies: 'Add the species',
  name: 'Name',
  whatIsUsualForIt: 'What is usual for it (all optional)',
  whereNewFiguresComeFrom: 'Where new figures come from',
  ownResults: 'own results',
  kept: 'Saved.',
  added: (name) => `Added: ${name}.`,
  isNotANumber: (title, raw) => `${title}: “${raw}” is not a number.`,
  commonPractice: 'common practice',

  // start.js
  aContainer: 'A container',
  makeTheContainer: 'Make the container',
  made: (name) => `Made: ${name}.`,
  aSpecies: 'A species',
  aSeedLot: 'A seed lot',
  aSowing: 'A sowing',
  newOrChangeOne: 'New, or change one',
  nothingSownYet: 'Nothing sown yet',
  addMore: 'Add more',
  fourStepsToTheFirst: 'Four steps to the first tally. A species that is there already need not be added.',
  none: 'none',
  thereAlready: (join) => `There already: ${join}.`,
  aNewSpecies: 'A new species',
  known: (count) => `${count} known`,
  lotOfLeft: (name, id, left, seeds, germinateIfSownNow) =>
    `${name}, lot ${id}: ${left} of ${seeds} left${germinateIfSownNow}`,
  moreDayCount: { one: 'more day', other: 'more days' },
  keeps: (counted) => `, keeps ${counted}`,
  dayCount: { one: 'day', other: 'days' },
  keptTooLongBy: (counted) => `, kept too long by ${counted}`,

  // unsent-list.js
  refusedSince: (refused) => `: refused, since ${refused}`,
  discard: 'Discard',
  waitingToBeSent2: (counted) => `${counted} waiting to be sent`,
  notTakenByTheService: 'Not taken by the service',

  // viability-words.js
  wouldGerminateIfSownNow: (fraction) => `, ${fraction} would germinate if sown now`,
  notFinishedYet: (counted) => `${counted} not finished yet`,
  howLongSeedKeepsCannot: (reason) => `How long seed keeps cannot be estimated yet: ${reason}.`,
  notCounted: 'Not counted',
  notBetweenAndDaysThose: (days, days2) => `not between ${days} and ${days2} days, the storage times on record`,
  afterDays95To: (halfDays, number, number2) => `after ${halfDays} days (95 %: ${number} to ${number2})`,
  fewerGerminateTheLongerSeed: (fraction, days, fraction2, days2) =>
    `Fewer germinate the longer seed is kept: ${fraction} after ${days}, ${fraction2} after ${days2}.`,
  halfGerminate: 'Half germinate',
  counted: 'Counted',
  groupsDifferByMoreThan: 'Groups differ by more than chance, which widens the intervals.',
  groupsDifferByNoMore: 'Groups differ by no more than chance.',
  daysRunFromGatheringTo: (part) => `Days run from gathering to sowing, whatever the way of keeping. ${part}`,

  // warmth-view.js
  warmthTitle: (unitName) => `Temperature of the containers, ${unitName}`,
  warmthOnAverage: (name, temperature) => `${name}: ${temperature} on average until the last check.`,
  halfAtHeat: (heat) => `By the fitted curve, half of those that germinate need ${heat}.`,
  halfAtDay: (name, day) =>
    `In ${name}, half of those that germinate had enough heat by day ${day}, by the fitted curve.`,
  warmthKey: (base) =>
    `Dashed across: ${base}, above which heat counts. Dotted upright: a check. Heavy upright: half, by the fitted curve.`,

  // warmth-load.js
  warmthFirstOf: (most, all) =>
    `The first ${most} of ${all} different paths through containers are drawn; more lines would hide each other.`,

  // writing.js
  theEntryHasNotArrived: 'the entry has not arrived yet',
  thePictureWasNotKept: (lost) => ` The picture was not kept: ${lost} Add it later, in the record.`,
  keptOnThisDeviceIt: (pictureWords) =>
    `Kept on this device. It is sent as soon as the service answers.${pictureWords}`,
  writtenDown: (what, pictureWords) => `Written down. ${what}.${pictureWords}`,
  undo: 'Undo',

  // round.js
  checkCount: { one: 'check', other: 'checks' },
  startARound: (checks) => `Start a round: ${checks}`,
  goOnWithRound: (checks) => `Go on with the round: ${checks} left`,
  endTheRound: 'End the round',
  placeInRound: (number, all) => `${number} of ${all}`,
  skip: 'Skip',
  doneNext: 'Done, next',
  done: 'Done',
  stopHere: 'Stop here',
  roundFinished: 'Round finished',
  roundStopped: 'Round stopped',
  writtenInRound: (checks) => `${checks} written down.`,
  notReachedInRound: (checks) => `${checks} not reached.`,
  skippedThese: 'Skipped:',
  checkTheSkipped: 'Check the skipped',
  closeTheRound: 'Close',

  // why-words.js
  weekAfterCheck: 'a week after the last check',
  weekAfterSowing: 'a week after sowing',
  potOn: (germinated) => `${germinated} germinated, to be potted on`,
  potOnWithRoots: (germinated, cm) => `${germinated} germinated, to be potted on with roots of ${cm} cm`,
  usuallyAfterDays: (days) => `the first usually germinate after ${days}`,
  expectedAfterDays: (days) => `at the temperatures so far, the first germinate after about ${days}`,
  butCheckForMould: (days) => `, but check for mould after ${days}`,
  usualDaysOver: (days) => `; the usual time is over (${days}): continue or stop?`,
  usuallyGivenUp: (days) => `after ${days} growers usually give up the remaining seeds`,
  noSoundSeedsRemain: 'no sound seeds remain',
  tooFewForTheHeat: 'too few seeds have germinated, or at too few checks, to estimate how much heat the others need',
  lastDayHardlyMeasured: 'readings cover less than half of the last day in the container of these seeds',
  hardlyEverWarmer: 'the container is hardly ever warmer than the base temperature',
  lessThanATenth: 'less than a tenth of the remaining seeds will probably germinate',
  onlyOneGroup: 'there is only one seed group',
  nearlyTheSameHeat: 'the seed groups received nearly the same heat per day',
  heatTooUncertain: 'the heat is too uncertain',
  bothModelsFit: 'both models fit about equally well',
  heatOrDaysNotShown: (why) => `These data do not show whether the counts follow the heat or the days: ${why}.`,
  noBaseUnidentified: 'the counts do not identify the heat that seeds need at any base temperature in the range',
  noBaseEvery: 'every base temperature in the range fits the counts; sowings at different temperatures are needed',
  noBaseRangeEnd: 'the likelihood is highest at the end of the range of base temperatures',
  noBaseTooCold: 'no group with known temperatures was warm enough to estimate the base temperature',
  fewTemperatures: (needed, apart, found) =>
    `seed groups at ${needed} or more temperatures are needed, at least ${apart} apart, whose counts identify the time to half germination; so far there are ${found}`,
  rateDoesNotRise: 'the germination rate does not rise with temperature',
  fewSowings: (neededSowings, neededDays, sowings, days) =>
    `at least ${neededSowings} finished sowings are needed, with at least ${neededDays} different numbers of days since gathering; so far there are ${sowings}, with ${days}`,
  noSlope:
    'all or no seeds germinated, or germination changes from all to none between two days: the slope is not identified',
  noFall: 'these sowings do not show that germination falls with the days since gathering',
  assumedEverySeed: (why) =>
    `the fit assumes that every seed germinates in the end, because the fit with a final fraction was rejected: ${why}`,
  assumedForEnds: (why) =>
    `for the ends of its interval, the fit assumes that every seed germinates in the end, because the fit with a final fraction was rejected: ${why}`,
  prospectAssumes:
    'Assumed: The remaining seeds are sound and germinate by the same curve as the earlier ones. Some may never germinate; their share is estimated. The times of the others follow a lognormal, loglogistic or Weibull distribution; each is weighted by its fit. The temperature stays as it was. ',
  onlyTheseCounts: 'Only the counts of this sowing are used.',
  pastSowingsToo: (counted) =>
    `The parameters of the curve are assumed to be similar to those of past sowings (${counted}), weighted by how well these agree, and are then updated with the counts of this sowing.`,

  // no-fit.js
  noFitNoCheck: 'no check was recorded after the start; at least one is needed',
  noFitNoneGerminated: 'no seed has germinated yet; counts of germinated seeds are needed',
  noFitEverySeed: 'every seed germinated, so the final fraction is 1; use the fit without a final fraction',
  noFitOnBound:
    'these counts do not show that some seeds never germinate, because the estimated final fraction is 1; use the fit without a final fraction',
  noFitFlat: 'more than one curve fits these counts equally well; counts from more checks are needed',
  noFitSameChecks:
    'all germinated seeds were found between the same two checks, so the spread of their times is unknown; check more often while seeds germinate',
  noFitNeighbouringChecks:
    'all germinated seeds were found in neighbouring intervals between checks, so neither their time nor its spread can be estimated; check more often while seeds germinate',
  noFitEndlessSpread: 'the estimated spread grows without limit; counts from more checks are needed',
  noFitNoHeat:
    'some seeds germinated although the readings show no heat above the base temperature: the base temperature is too high, or the readings do not show how warm the seeds were',
  noFitUnmeasured: 'readings cover less than half of the time that the seeds were kept',
  noFitBeyond:
    'the estimated median is more than twice the greatest heat at any check, too far beyond the data to be estimated',
};
