// The English texts of charts.

export default {
  // figures-table.js
  from: 'From',
  mean: 'Mean',
  lowest: 'Lowest',
  highest: 'Highest',
  sumByItsEnd: 'Sum by its end',
  atMostTitle: 'At most',

  // marked.js
  opening: 'Opening',
  daylight: 'Daylight',
  lamp: 'Lamp',
  otherLight: 'Other light',
  endNotSeen: 'end not seen',
  lightMark: (title, lasting, peak) => `${title}: ${lasting}, up to ${peak}`,
  noted: (title, lasting) => `${title}: ${lasting}`,
  outside: (title, lasting, worst) => `${title}: ${lasting}, at worst ${worst}`,
  sensorPlaced: (sensor) => `Sensor ${sensor} placed here`,
  sensorRemoved: (sensor) => `Sensor ${sensor} taken out`,
  sensorCalibrated: (sensor, quantity) => `Sensor ${sensor} calibrated: ${quantity}`,
  sowingNumber: (number) => `sowing ${number}`,
  checked: (sowing, group, germinated) => `Check of ${sowing}, group ${group}: ${germinated} newly germinated`,
  untilTime: (from, to) => `${from} to ${to}`,

  // marked-list.js
  nothingMarked: 'Nothing is marked in this stretch.',
  showAll: (count) => `Show all ${count}`,

  // panel.js
  theSameAsATable: 'The same as a table',
  png: 'Picture',
  csv: 'CSV',
  saveAsPicture: 'Save this chart as a picture (PNG)',
  saveFigures: 'Save the figures of this chart (CSV)',
  heatWasAddedUp: 'heat was added up',
  wasHeard: (name) => `${name} was heard`,
  nothingToDraw: (part) => `Nothing to draw: no ${part} in this stretch.`,

  // range.js
  n24Hours: '24 hours',
  n7Days: '7 days',
  n4Weeks: '4 weeks',
  n4Wk: '4 wk',
  n24H: '24 h',
  n7D: '7 d',
  all: 'All',
  earlier: '← Earlier',
  later: 'Later →',
  closer: 'Zoom in',
  wider: 'Zoom out',

  // range-words.js
  now: 'now',
  shownFromTo: (from, to, zone) =>
    `${from} to ${to}, in the time zone ${zone}. Drag sideways over a chart for a closer look; double-click or tap twice to go back.`,

  // sentence.js
  nothingHeard: 'nothing heard',
  gapCount: { one: 'gap', other: 'gaps' },
  withGaps: (counted) => ` ${counted} without readings.`,
  onlyOnce: (value, at) => `${value}, measured only once: ${at}.`,
  throughout: (value, gaps) => `${value} throughout.${gaps}`,
  fromTo: (mean, low, lowAt, high, highAt, gaps) =>
    `On average ${mean}; lowest ${low} (${lowAt}), highest ${high} (${highAt}).${gaps}`,
  soFar: 'so far',
  byItsEnd: 'by its end',
  heatAdded: (added, sum, when) => `${added} were added in this stretch; ${sum} ${when}.`,
  heatAddedAtMost: (added, sum, when, most) =>
    `${added} were added in this stretch; ${sum} ${when}, at most ${most} with the gaps.`,
  withoutReadings: (count) => ` ${count} without readings.`,
  onlyOne: (name, value) => `Only ${name} has readings: ${value} on average.`,
  allAlike: (value) => `On average all alike: ${value}.`,
  highestAndLowest: (name, value, other, least) =>
    `On average, ${name} is highest with ${value} and ${other} lowest with ${least}.`,
  mostAndLeastHeat: (name, value, other, least) =>
    `In this stretch, ${name} received most heat with ${value} and ${other} least with ${least}.`,
  spread: (min, max) => ` (${min} to ${max})`,
  atMost: (sum, most) => `${sum}, at most ${most}`,

  // specs.js
  temperature: (unitName) => `Temperature, ${unitName}`,
  shadedTheLimits: 'Shaded: the limits. Line: mean, with lowest and highest around it. Dashed: the room air.',
  humidity: 'Humidity, %',
  shadedSaturated: (from) =>
    `Shaded: saturated, from about ${from} %: sensors cannot tell values apart there. Dashed: the lower limit.`,
  lightLux: 'Light, lux',
  eachLineUpwards: 'Each line is ten times brighter than the one below.',
  eachLineUpwardsShaded: 'Each line is ten times brighter than the one below. Shaded: dark enough.',
  heatSoFar: (unitName) => `Heat so far, ${unitName}·h`,
  aDotAtTheEnd:
    'A dot at the end of each day, straight lines between. Shaded above: the most that the gaps could have added.',
  lineMeanWithSpread: 'Line: mean, with lowest and highest around it.',
};
