// The English texts of this page.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    container: 'Container',
    now: 'Now',
    stretchOfTimeShown: 'Stretch of time shown',
    askingTheService: 'Asking the service …',
    needsAttention: 'Needs attention',
    didYouOpenIt: 'Did you open it?',
    course: 'Course',
    whatTheChartsMark: 'What the charts mark',
    compareWithOthers: 'Compare with others',
    print: 'Print',
    faults: 'Faults',
    limits: 'Limits',
    openingsAndOtherLight: 'Openings and other light',
    excursions: 'Excursions',
    heatByDay: 'Heat by day',
    daysWithoutSensors: 'Days without sensors',
    sensorsInside: 'Sensors inside',
    settings: 'Settings',
  },

  // alert-rules.js
  changeWhenAlertsAreRaised: 'Change when alerts are raised',
  anEmptyFieldMeansThe:
    'An empty field means the default, shown in grey. The limits of temperature, humidity and light are set above.',
  keepTheseRules: 'Keep these rules',
  kept: 'Saved.',

  // charts.js
  room: 'room air',
  lettersAboveTheChartsC:
    'Above the charts: C too cold, H too hot, D too dry, O opening; light leaks: S daylight (sun), L lamp, X other light; F sensor fault, E fault left out of the figures; ✓ check, ↓ sensor placed, ↑ sensor taken out, ± calibration. Blank stretches are gaps: nothing was heard.',

  // container.js
  notFoundTepidarium: 'Not found · Tepidarium',
  noContainerWasNamed: 'No container was named.',
  thereIsNoContainerHere: (id) => `There is no container “${id}” here.`,
  itMayHaveBeenRemoved: 'It may have been removed, or the link is mistyped. ',
  backToTheShelf: 'Back to the Shelf',

  // extremes-words.js
  forTimeBeforeTheSensors:
    'For time before the sensors: enter the lowest and highest temperature of each day. The heat is estimated and shown here alone.',
  dayCount: { one: 'day', other: 'days' },
  aboutInWithoutReadingsAn: (unmeasured, counted) =>
    `About ${unmeasured} in ${counted} without readings: an estimate, not part of “Heat so far”.`,
  everyDayEnteredWasMeasured: 'Every day entered was measured too.',
  withBoth: (counted) => `${counted} with both`,
  onTheEstimateEqualsThe: (over) => ` On ${over}, the estimate equals the measured heat.`,
  tooHigh: 'too high',
  tooLow: 'too low',
  onTheEstimateIsA: (over, degreeHours, part) =>
    ` On ${over}, the estimate is ${degreeHours} a day ${part} on average.`,
  enterANumberSuchAs: (title, number) => `${title}: enter a number, such as ${number}.`,
  lowest: 'Lowest',
  highest: 'Highest',
  theLowestTemperatureIsAbove: 'The lowest temperature is above the highest. Check both.',
  dayChooseADate: 'Day: choose a date.',

  // extremes.js
  enterDaysFromAWeather: 'Enter days from a weather station or a min/max thermometer',
  day: 'Day',
  lowest2: (unitName) => `Lowest (${unitName})`,
  highest2: (unitName) => `Highest (${unitName})`,
  enterADayAgainTo: 'Enter a day again to correct it. Use the temperature inside the container, or near it.',
  keepThisDay: 'Keep this day',
  kept2: (day) => `Kept: ${day}.`,
  howIsThisWorkedOut: 'How is this worked out?',
  estimate: 'Estimate',
  measured: 'Measured',
  estimateLessMeasured: 'Estimate less measured',
  estimatedWithTheSingleSine: (timeZone) => `Estimated with the single-sine method; days as in ${timeZone}.`,
  remove: (day) => `Remove ${day}`,
  remove2: 'Remove',

  // faults.js
  showAll: (count) => `Show all ${count}`,

  // head.js
  shelf: '← Shelf',
  label: 'Label',
  sinceFromOfReadings: (from, coveredHours) => `since ${from}, from ${coveredHours} of readings`,
  soBetweenAnd: (heat, lower, upper) => `${heat}, so between ${lower} and ${upper}`,
  betweenAndAsTheSensor: (sensorLower, sensorUpper) =>
    `between ${sensorLower} and ${sensorUpper} because the sensor may be off`,
  iAmOpeningIt: 'I am opening it',
  itIsClosedAgain: 'It is closed again',
  aCheck: 'A check',
  mould: 'Mould. ',
  openItWhereAirMoves:
    'Open it where air moves, wear a mask, and do not lean over it: warm, moist containers can let out many spores at once. Wash your hands. Switch a mat off before you wet or lift anything on it.',
  openUntilLightUntilThen: (until) =>
    `Open until ${until}: light until then counts as an opening, not as a leak. Press again for another ten minutes from then on.`,
  pressBeforeYouOpenIt:
    'Press before you open it. Light in the next 10 minutes then counts as an opening, not as a light leak.',
  tenMinutesMore: 'Ten minutes more',

  // light-words.js
  lightOpening: 'An opening for a check: nothing to do.',
  quarters: {
    north: 'north',
    'north-east': 'north-east',
    east: 'east',
    'south-east': 'south-east',
    south: 'south',
    'south-west': 'south-west',
    west: 'west',
    'north-west': 'north-west',
  },
  sunBelow: (quarter) => `below the horizon in the ${quarter}`,
  sunAt: (quarter, degrees) => `in the ${quarter}, ${degrees}° high`,
  lightDaylight: (where) =>
    `Daylight gets in (the sun stood ${where}). Turn the seam or the lid's edge that faces the window away from it, or cover it with something opaque; keep the closet door shut.`,
  lightLampAtNight: (degrees) =>
    `Not daylight alone: the sun was ${degrees}° below the horizon, so a lamp was on. Check that the closet door and the lid are closed tightly towards the lamp. If you opened the container then, record the opening.`,
  lightLampByShape:
    'Probably a lamp: the light started at full brightness and stayed constant. Find out which lamp was on. Check that the closet door and the lid are closed tightly. If you opened the container then, record the opening.',
  lightUndecided:
    'Daylight or a lamp; the readings do not show which. Check that the lid and the closet door are closed tightly and that the seam does not face the window. If you opened the container then, record the opening.',
  lightUnknownSite:
    'Check that the lid and the closet door are closed tightly and that the seam does not face the window. If you opened the container then, record the opening. With a site in the settings, daylight and lamps can be distinguished.',

  // limits-table.js
  inside: '✓ inside',
  outsideNotForLongYet: '~ outside, not for long yet',
  outsideAlert: '! outside, alert',
  notKnown: '? not known',
  heard: '✓ heard',
  late: '~ late',
  silentAlert: '! silent, alert',
  notColderThan: 'Not colder than',
  notHotterThan: 'Not hotter than',
  notDrierThan: 'Not drier than',
  notBrighterThan: 'Not brighter than',
  heard2: 'Heard',
  sensorTo: (share, low, high) => `${share} (sensor: ${low} to ${high})`,
  limit: 'Limit',
  now2: 'Now',
  insideOfTheTimeHeard: 'Inside, share of the measured time',
  outsideFor: 'Outside for',
  inTheStretchShownHeard: (coveredHours, gapHours, leftOut) =>
    `In the stretch shown, ${coveredHours} were measured and ${gapHours} are missing. ${leftOut}`,
  nothingMeasured: (leftOut) =>
    `No two readings follow each other in this stretch, so no time counts as measured. ${leftOut}`,

  // rule-fields.js
  limit2: (unit) => `Limit (${unit})`,
  deadband: (unit) => `Deadband (${unit})`,
  onDelayMin: 'On-delay (min)',
  offDelayMin: 'Off-delay (min)',
  defaultWord: (priority) => `default (${priority})`,
  priority: 'Priority',
  raiseThisAlert: 'Raise this alert',
  yes: 'yes',
  no: 'no',
  isNotANumber: (title, typed) => `${title}: “${typed}” is not a number.`,
  high: 'high',
  medium: 'medium',
  low: 'low',

  // sensors.js
  theSheetOfASensor: 'Press a sensor to see its battery, gaps, correction and placements.',
  placeOrMoveASensor: 'Place or move a sensor',
  noneUntilOneIsPlaced: 'None. Until one is placed here, nothing is known about this container.',
  heard3: 'heard ',

  // settings.js
  keepTheseSettings: 'Keep these settings',
  keptAllFiguresFollowAlso: 'Saved. All figures are calculated again, also those of the past.',
  changeNameBandOrHow: 'Change name, limits or how heat is counted',
  yesRemoveIt: 'Yes, remove it',
  removeThisContainer: 'Remove this container',
  itLeavesTheShelfThe: 'It leaves the Shelf. The readings stay with their sensors.',

  // suggested.js
  yesThatWasMe: 'Yes, that was me',
  no2: 'No',
  upTo: (peakLux) => `, up to ${peakLux}`,
  temperature2: (temperatureChange) => `temperature ${temperatureChange}`,
  humidity2: (humidityChange) => `humidity ${humidityChange}`,

  // tables.js
  opening: 'Opening',
  daylight: 'Daylight',
  lamp: 'Lamp',
  otherLight: 'Other light',
  noLightAboveWasSeen: (limit, light, light2) => `No light above ${limit} was seen${light}.${light2}`,
  what: 'What',
  start: 'Start',
  end: 'End',
  length: 'Length',
  brightest: 'Brightest',
  lightDose: 'Light dose',
  temperature3: 'Temperature',
  humidity3: 'Humidity',
  whatToDo: 'What to do',
  lightLeakCount: { one: 'light leak', other: 'light leaks' },
  openingCount: { one: 'opening', other: 'openings' },
  inAll: (counted, counted2, doseLuxHours, light, light2, zoneWords) =>
    `${counted}, ${counted2}; ${doseLuxHours} in all${light}.${light2} ${zoneWords}`,
  temperatureAndHumidityStayed: (band) =>
    `Temperature and humidity stayed inside their limits while they were measured${band}.`,
  duringAnOpening: ', during an opening',
  worst: 'Worst',
  worstAt: 'Worst at',
  degreeHoursLost: 'Degree-hours lost',
  excursionCount: { one: 'excursion', other: 'excursions' },
  noReadingsToAddUp2: 'No readings to add up yet.',
  degreeHours: 'Degree-hours',
  missing: 'Missing',
  none: 'none',
  trueValueBetween: 'True value between',
  and: (lower, upper) => `${lower} and ${upper}`,
  nothingMissing: 'nothing missing',
  noMoreThanAt: (ceiling) => `, no more than at ${ceiling}`,
  above: (base, part) => `Above ${base}${part}`,
  wholeTimeOfThisContainer: (above, zone, heat) => `${above}. Whole time of this container; days as in ${zone}.${heat}`,
  withMissing: (gapHours) => `, with ${gapHours} missing`,
  timesAsIn: (browserZone) => `Times are in the zone ${browserZone}.`,
  notSeen: 'not seen',
};
