// The English texts of this page.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    heatBench: 'Heat bench',
    comparesContainersOrHeatSources:
      'Compares containers or heat sources over the hours in which all were measured. Also tests a place before seeds go there: with a sensor in a jar of water.',
    askingTheService: 'Asking the service …',
    compare: 'Compare',
    heatSources: 'Heat sources',
    containers: 'Containers',
    overTheLast: 'Over the last',
    theSameInFigures: 'The same in figures',
    tryAPlace: 'Try a place',
    putAJarOfWater:
      'Put a jar of water with a sensor into the empty container for two days, and another sensor into the room. Then this page shows how cold the room may become.',
    heatMatsLampsAndTheir:
      'Heat mats, lamps and their leads stay away from the water, behind residual-current protection, with drip loops; leave fixed wiring to a licensed electrician. Do not leave a home-made heater alone on its first day.',
    container: 'Container',
    heatersPowerWIfKnown: "Heater's power, W (if known)",
    workItOut: 'Work it out',
  },

  // bars.js
  heatADayWithIts: (unitName) => `Heat a day with its 95 % interval, ${unitName}·h`,

  // choice.js
  n3Days: '3 days',
  n7Days: '7 days',
  n4Weeks: '4 weeks',
  all: 'All',

  // comparison.js
  whereTheWeatherStaysAlike:
    'Where the weather stays alike for a day or two, these intervals are too narrow: some hold the truth in only 82 of 100 cases.',
  eachByItselfFromTo: (from, to, base) =>
    `Each by itself, from ${from} to ${to}. Heat above ${base}; below each figure its 95 % interval.`,
  differences: 'Differences',
  overTheHoursThatWere:
    'Over the hours that were well covered in both; below each figure its 95 % interval. An interval with zero in it shows no difference.',
  howIsThisWorkedOut: 'How is this worked out?',
  onlyHoursThatWereWell:
    'Only hours that were well covered in both count. An interval holds the true value in 95 of 100 cases.',
  howOften: 'How often?',
  allFigures: 'All figures',

  // heat-bench.js
  twoContainersAreNeededFor: 'Two containers are needed for a comparison.',
  chooseTwoToOfOne: (MOST) => `Choose two to ${MOST}, only containers or only heat sources.`,
  comparing: 'Comparing …',

  // profile.js
  throughTheDay: (unitName) => `Through the day, ${unitName}`,
  meanTemperatureByHourOf: (join) =>
    `Mean temperature by hour of the day of ${join}; the figures stand in the table below.`,
  localHoursOf: (timeZone) => `Local hours of ${timeZone}.`,
  meanTemperatureInEachHour: 'Mean temperature in each hour of the local day.',
  hour: 'Hour',

  // sentences.js
  trialTooShort: (hours) =>
    `The trial is too short: place and room were measured together for ${hours} hours. At least 12 hours are needed, better two days. Check that a sensor is placed in the room.`,
  trialWithoutFit:
    'The temperatures do not fit a heated place in this room. Check whether the sun reaches it or whether it was opened.',
  hereItIs: (permutationP) => `; here it is ${permutationP}`,
  andTheContainerIsThe: (name, name2, count, count2) =>
    `${name} and ${name2}: the container is the unit. With ${count} against ${count2}, `,
  theSmallestPossiblePermutation: (leastPermutationP, here) =>
    `the smallest possible permutation p is ${leastPermutationP}${here}.`,
  theRoomWasTooSteady: (roomMin, roomMax, unitName) =>
    `The room was too steady, between ${roomMin} and ${roomMax} ${unitName}, to show how the place follows it. `,
  repeatTheTrialOverColder: 'Repeat the trial over colder nights, or let the room cool for some hours.',
  theRoomChangedFromTo: (roomMin, roomMax, unitName, insideMin, insideMax) =>
    `The room changed from ${roomMin} to ${roomMax} ${unitName}, the place only from ${insideMin} to ${insideMax} ${unitName}. `,
  eitherSomethingRegulatesItOr:
    'Either something regulates it, or it warms and cools slowly: the trial is too short to tell which. Go on for some days more.',
  theRoomChangedEnoughTo: (roomMin, roomMax, unitName) =>
    `The room changed enough (${roomMin} to ${roomMax} ${unitName}), but the place changed for other reasons too: an opened lid, the sun, or a heater that switches. `,
  leaveItClosedAndShaded:
    'Leave it closed and shaded for two days. If its heater switches, let the sensor report every minute.',
  somethingRegulatesThisPlace: (roomMin, roomMax, unitName) =>
    `Something regulates this place: it follows the room (${roomMin} to ${roomMax} ${unitName}) less than with an unregulated heater. `,
  theLowestRoomTemperatureFor:
    'The lowest room temperature for it is not known, because the heater never reached its limit.',
  thisPlaceFallsBelowWhen: (limit, degrees, unitName) =>
    `This place falls below ${limit} when the room stays below ${degrees} ${unitName} `,
  n95ToTheSensorsMay: (low, high, sensorError) => `(95 %: ${low} to ${high}; the sensors may add ±${sensorError}).`,
  itsMeanInTheTrial: ' Its mean in the trial was already below that.',
  inARoomAnotherColder: (plain, unitName, one, low, high) =>
    ` In a room another ${plain} ${unitName} colder, this takes ${one} hours (${low} to ${high}).`,
  ifTheHeatFailsAt: (limit, one, low, high) =>
    ` If the heat fails at the mean room temperature of the trial, it falls below ${limit} after ${one} hours (${low} to ${high}).`,

  // trial-words.js
  measuredTogether: 'Measured together',
  meanInside: 'Mean inside',
  room: 'Room air',
  to: (roomMin, roomMax) => `${roomMin} to ${roomMax}`,
  timeConstant: 'Time constant',
  riseAboveTheRoomHeater: 'Rise above the room, heater always on',
  riseAboveTheRoom: 'Rise above the room',
  fallsBelowInARoom: (limit) => `Falls below ${limit} in a room below`,
  afterInARoomColder: (colderBy) => `Time until then, in a room another ${colderBy} colder`,
  afterIfTheHeatFails: 'Time until then, if the heat fails',
  heaterSwitchesOnAndOff: 'Heater switches on and off at',
  and: (onBelow, offAbove) => `${onBelow} and ${offAbove}`,
  heaterIsOn: 'Heater is on',
  energyADay: 'Energy a day',
  kwh: (number) => `${number} kWh`,
  atMostOnAllDay: (kilowattHoursPerDay) => `at most ${kilowattHoursPerDay}: on all day`,
  to2: (kilowattHoursPerDay, low, high) => `${kilowattHoursPerDay} (${low} to ${high})`,

  // trial.js
  n24Hours: '24 hours',
  n48Hours: '48 hours',
  n4Days: '4 days',
  thePowerMustBeA: 'The power must be a number of watts, such as 20, or left empty.',

  // words.js
  min: (number) => `${number} min`,
  heatADay: 'Heat a day',
  insideTheBand: 'Inside the limits',
  points: (number) => `${number} points`,
  mean: 'Mean',
  nightFloor: 'Night floor',
  swingInADay: 'Swing in a day',
  tooFewForAnInterval: 'too few for an interval',
  about: (low) => `about ${low}`,
  containerCount: { one: 'container', other: 'containers' },
  hours: 'Hours',
  longestOut: 'Longest out',
  warmAgain: 'Warm again',
  variesBy: 'Varies by',
  spreadOfPlaces: 'Spread of places',
  none: 'none',
  noOpeningCooledIt: 'no opening cooled it',
  notSeenToEnd: (part) => `; ${part} not seen to end`,
  openingCount: { one: 'opening', other: 'openings' },
  less: (first, second) => `${first} minus ${second}`,
  hoursOfBoth: 'Hours of both',
  sensorsMayMake: 'Due to sensor errors',
  leftOutSinceTooFew: (join) => `Left out, since too few of their hours were measured: ${join}.`,
};
