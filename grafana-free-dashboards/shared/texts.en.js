// The English texts of all pages.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    language: 'en',
    otherLanguage: 'de',
    otherLanguageName: 'Deutsch',
    tepidariumToTheShelf: 'Tepidarium, to the Shelf',
    pages: 'Pages',
    toTheContent: 'To the content',
    shelf: 'Shelf',
    alerts: 'Alerts',
    tally: 'Tally',
    charts: 'Charts',
    heatBench: 'Heat bench',
    sensors: 'Sensors',
    sites: 'Sites',
    files: 'Files',
    notUnderstood: 'Not understood',
    pressAnywhereOnThisPage: 'Press anywhere on this page. Until then, the browser plays no sound when a notice comes.',
    figuresOnThesePagesNeed: 'Figures on these pages need JavaScript. Nothing is loaded from other servers.',
    service: 'Service',
    withoutNetworkNeedsTls:
      'Over TLS these pages also work without a network, and can be installed: <a href="/docs/operation.html#tls">how to get TLS</a>.',
    howIsThisWorkedOut: 'How is this worked out?',
    cautions: 'Cautions',
    counting: 'Counting',
    notices: 'Notices',
    settings: 'Settings',
    stores: 'Stores',
    operation: 'Operation',
    api: 'API',
    changes: 'Changes',
    help: 'Help:',
  },

  // alert-groups.js
  acknowledgeAll: 'Acknowledge all',
  pauseAllFor1H: 'Pause all for 1 h',
  containerCount: { one: 'container', other: 'containers' },
  onLookAtTheHeat: (counted, source, group) => `${counted} on “${source}” ${group}. Look at the heat source first.`,

  // alert-item.js
  acknowledge: (title, name) => `Acknowledge: ${title}, ${name}`,
  acknowledge2: 'Acknowledge',
  pauseForOneHour: (title, name) => `Pause for one hour: ${title}, ${name}`,
  pauseFor1H: 'Pause for 1 h',

  // alert-reasons.js
  signNotMeasurable: (sensor, value) =>
    `${sensor} reports ${value}, outside what a sensor can measure: check its wiring`,
  signPowerOn: (sensor, value) =>
    `${sensor} reports exactly ${value}, as a DS18B20 does after power-up: check its supply and cable`,
  signImpossible: (sensor, value) =>
    `${sensor} reports ${value}, which is impossible in a germination container: check it`,
  signStuck: (sensor, value, time) =>
    `${sensor} reports ${value} without any change for ${time} while others change: restart it, check its wiring`,
  signJumping: (sensor, step) =>
    `${sensor} jumps up and down by ${step} or more, impossible in a sealed container: check its wiring and supply`,
  signDisagreeing: (sensor, other, difference) =>
    `${sensor} and ${other} differ by ${difference}, more than their errors allow: compare them side by side`,
  itCameTrue: (alert) => `the alert “${alert}” came`,
  noSensorAnyMore: 'no sensor is in it any more',
  beganEarlier: (since) => `it began earlier than was known then: ${since}`,
  timeBefore: (since, until, worst) => `the time before from ${since} to ${until}${worst}`,
  timeBeforeFrom: (since, worst) => `the time before from ${since}${worst}`,

  // alert-words.js
  lasted: (lasting) => `Lasted ${lasting}`,
  forWord: (lasting) => `For ${lasting}`,
  signsOfFault: (detail) => detail,
  trend: (value, perHour, steady) => `now ${value} and changing by ${perHour} an hour, towards about ${steady}`,
  outsideAtAbout: (forecastAt) => `outside at about ${forecastAt}`,
  nothingWasHeardFor: (lasting) => `Nothing was heard for ${lasting}`,
  nothingHeardForSoNobody: (lasting) => `Nothing heard for ${lasting}, so nobody knows how it is inside`,
  was: 'Was ',
  forWord2: (part, limitWord, limit, lasting) => `${part}${limitWord} ${limit} for ${lasting}`,
  now: (unitOf) => `now ${unitOf}`,
  pausedUntilThenItIs: (shelvedUntil) => `Paused until ${shelvedUntil}; then it is open again.`,
  overSinceNobodyHasAcknowledged: (returnedAt) => `Over since ${returnedAt}. Nobody has acknowledged it yet.`,
  by: (acknowledgedBy) => ` by ${acknowledgedBy}`,
  acknowledged: (acknowledgedAt, part) => `Acknowledged ${acknowledgedAt}${part}.`,

  // attention.js
  pausedAlertCount: { one: 'paused alert', other: 'paused alerts' },
  newAlert: (title, containerName, alert) => `New alert. ${title}: ${containerName}. ${alert}`,

  // call.js
  theServiceDoesNotAnswer: 'The service does not answer. Is it running, and is this device on its network?',
  theServiceSentAnAnswer: 'The service sent an answer that could not be read.',
  theServiceRefused: (status) => `The service refused (${status}).`,

  // conditions.js
  tooCold: 'Too cold',
  areTooCold: 'are too cold',
  below: 'below',
  coldest: 'coldest',
  tooDry: 'Too dry',
  areTooDry: 'are too dry',
  driest: 'driest',
  silent: 'Silent',
  areSilent: 'are silent',
  notMeasuredReliably: 'Not measured reliably',
  areNotMeasuredReliably: 'are not measured reliably',
  gettingTooCold: 'Getting too cold',
  areGettingTooCold: 'are getting too cold',
  lightInside: 'Light inside',
  haveLightInside: 'have light inside',
  above: 'above',
  brightest: 'brightest',
  tooHot: 'Too hot',
  areTooHot: 'are too hot',
  hottest: 'hottest',
  gettingTooHot: 'Getting too hot',
  areGettingTooHot: 'are getting too hot',
  mediumDry: 'Medium dry',
  areDryInTheirMedium: 'are dry in their medium',
  shortOfAir: 'Short of air',
  areShortOfAir: 'are short of air',
  highest: 'highest',
  batteryLow: 'Battery low',
  areLowOnBattery: 'are low on battery',
  lowest: 'lowest',
  beyond: 'beyond',
  worst: 'worst',

  // container-words.js
  jar: 'Jar',
  box: 'Box',
  bag: 'Bag',
  tray: 'Tray',
  noSensorPlaced: 'no sensor placed',
  notReported: 'not reported',
  noSensor: 'No sensor',
  noSensorIsPlacedHere: 'No sensor is placed here, so nothing is known.',
  openForACheckUntil: (until) => `Open for a check until ${until}; light counts as an opening.`,
  itsTemperatureWasNotCompared: 'Its temperature is compared with its limits from the next reading on.',
  notCheckedYet: 'Not checked yet',
  aSensorIsPlacedBut: 'A sensor is placed, but no temperature has come from it yet.',
  pausedForNow: 'Paused for now.',
  acknowledged2: 'Acknowledged.',
  needsYou: 'Needs you',
  seenByYou: 'Seen by you',
  drifting: 'Drifting',
  open: 'Open',
  noReadingYet: 'No reading yet',
  stateUnknown: 'State unknown',
  inOrder: 'In order',
  inOrderAtTheLastReading: (duration) => `In order at the last reading, ${duration} ago.`,
  nothingHasBeenHeardFrom: 'Nothing has been heard from its sensor yet.',
  nothingHeardForItMay: (duration) =>
    `Nothing heard for ${duration}. It may be cold or open: look at sensor and battery.`,
  warm: 'warm',
  dark: 'dark',
  moist: 'moist',
  darkness: 'darkness',
  moisture: 'moisture',
  noReadingNow: 'No reading now',
  notMeasured: 'Not measured',
  missing: (gapHours, part) => `${gapHours} missing${part}`,
  betweenAnd: (heat, lower, upper) => `${heat}: between ${lower} and ${upper}`,
  battery: (volts) => `battery ${volts}`,

  // copy.js
  copied: 'Copied',
  selectAndCopyByHand: 'Select and copy by hand',

  // fault-list.js
  decidedBy: (by) => `, decided by ${by}`,

  // fault-reasons.js
  seconds2: (n) => `${n} s`,
  minutes2: (n) => `${n} min`,
  hours2: (n) => `${n} h`,
  days2: (n) => `${n} days`,
  reasonPowerOn: (value) =>
    `Exactly ${value}: a DS18B20 reports this after power-up, before its first measurement. Check its supply and cable.`,
  reasonNotConnected: (value) => `${value}: the sensor chip did not answer. Check its cable and plug.`,
  reasonRawLimit: (values) => `${values}: all bits of the raw value are equal. Check the wiring of the chip.`,
  reasonOutOfRange: (values) => `${values} is outside what a sensor can measure. Check the sensor and its unit.`,
  reasonImplausible: (values) => `${values} is impossible in a germination container. Check the sensor.`,
  reasonStuck: (values, time) =>
    `${values} without any change for ${time}, although this sensor's values change otherwise. Restart it, check its wiring.`,
  reasonSpike: (values) => `${values}, far from the readings before and after. Check the wiring.`,
  reasonJump: (before, after) =>
    `Jumped from ${before} to ${after} and stayed there. Check whether the sensor was moved.`,
  reasonSaturatedHumidity: (time) => `At the end of the humidity scale for ${time}. Differences there mean little.`,
  reasonSaturatedLight: 'The light sensor is at the end of its scale: very bright light, or not connected.',
  reasonCondensation:
    'Saturated air while the temperature fell: water condenses on the sensor. Its humidity reads too high for hours.',
  reasonDrift: (other, difference) =>
    `Differs from ${other} in the same container by ${difference}, more than the errors of both allow. Compare them side by side.`,
  reasonWrongClock: (behind, time) =>
    `The sensor's clock is ${behind ? 'behind' : 'ahead'} by at least ${time}. Set it, or send age instead of at.`,
  reasonInterval: (after, before) => `Reports every ${after} instead of every ${before}. Check its radio and battery.`,
  reasonBattery: (before, after) => `Battery fell from ${before} to ${after} within a week. Charge or replace it.`,

  // refusals.js
  fieldNames: {
    name: 'the name',
    minutes: 'the length in minutes',
    from: 'the start',
    to: 'the end',
    until: 'the end',
    at: 'the time',
    by: 'the name of the person',
    reason: 'the reason',
    remark: 'the remark',
    note: 'the note',
    base: 'the base temperature',
    ceiling: 'the ceiling temperature',
    seeds: 'seeds',
    germinated: 'germinated',
    sown: 'sown',
    min: 'the lowest temperature',
    max: 'the highest temperature',
    password: 'the password',
    username: 'the username',
    room: 'the room',
    heatSource: 'heat source',
    reading: 'the reading',
    trueValue: 'the true value',
    uncertainty: 'the uncertainty',
    readingUncertainty: 'the uncertainty',
    referenceUncertainty: 'the uncertainty',
    gatheredAt: 'the date of gathering',
    accession: 'the accession number',
    keep: 'how it is kept',
    confidence: 'the confidence',
    wanted: 'the number wanted',
    sensor: 'the sensor',
    container: 'the container',
    quantity: 'the quantity',
    watts: 'the power',
    placements: 'placements',
    emptyVolts: 'the voltage of empty cells',
    pottedOn: 'potted on',
    culled: 'culled',
    'band.temperature.low': 'the lowest temperature',
    'band.temperature.high': 'the highest temperature',
    'band.light.high': 'the brightest light',
    'band.humidity.low': 'the lowest humidity',
    limit: 'the limit',
    deadband: 'the deadband',
    onDelayMinutes: 'the delay of the alert',
    offDelayMinutes: 'the delay of its end',
    temperatureOffset: 'the temperature offset',
    humidityOffset: 'the humidity offset',
    temperatureError: 'the error of the temperature',
    optimum: 'the best temperature',
    firstDays: 'the days to the first seedling',
    giveUpDays: 'the days until giving up',
    fraction: 'the fraction that germinates',
    rootCm: 'the length of the root',
    rootLengthsCm: 'the lengths of the roots',
    keepsDays: 'the days that seeds stay viable',
    ungerminated: 'ungerminated',
    alive: 'alive',
    days: 'the days',
    day: 'the day',
    groups: 'the containers',
    containers: 'the containers',
    sources: 'the heat sources',
    sowings: 'the sowings',
    species: 'the species',
    lot: 'the seed lot',
    topics: 'the topics',
    reads: 'the topics to read',
    topic: 'the topic',
    current: 'the present password',
    role: 'the rights',
    temperature: 'the temperature',
    humidity: 'the humidity',
    kind: 'the kind',
    culledGerminated: 'germinated ones culled',
  },
  /** By the rule of an input that was broken. */
  rules: {
    missing: (field) => `Missing: ${field}.`,
    'too-long': (field, { most }) => `Too long: ${field}. At most ${most} characters.`,
    'too-short': (field, { least }) => `Too short: ${field}. At least ${least} characters.`,
    bytes: (field, { most }) => `Too long: ${field}. At most ${most} characters; letters with accents count double.`,
    length: (field, { most }) => `Please check ${field}: 1 to ${most} characters.`,
    characters: (field, { allowed, most }) =>
      allowed
        ? `Please check ${field}: 1 to ${most} of these characters: ${allowed}`
        : `Please check ${field}: it has characters that cannot be shown.`,
    whole: (field, { least, most }) =>
      most
        ? `Please check ${field}: a whole number from ${least} to ${most}.`
        : `Please check ${field}: a whole number, at least ${least}.`,
    range: (field, { least, most }) =>
      most ? `Please check ${field}: between ${least} and ${most}.` : `Please check ${field}: at least ${least}.`,
    above: (field, { least, most }) => `Please check ${field}: above ${least}, at most ${most}.`,
    higher: (field, { value, of, than }) => `Please check ${field}: ${value} must lie above ${of}, ${than}.`,
    number: (field, { value }) => `Please check ${field}: a number is needed, not “${value}”.`,
    choice: (field, { value, choices }) => `Please check ${field}: not “${value}”, but one of ${choices}.`,
    count: (field, { least, most }) =>
      least ? `Please check ${field}: ${least} to ${most} are needed.` : `Please check ${field}: ${most} at most.`,
    instant: (field, { value }) => `Please check ${field}: a date and time is needed, not “${value}”.`,
    future: (field, { now }) => `Please check ${field}: it lies in the future. It is ${now} now.`,
    'too-early': (field, { earliest }) => `Please check ${field}: not before ${earliest}.`,
    'readings-deleted': (field, { earliest }) =>
      `Please check ${field}: the readings before ${earliest} have been deleted, so their figures no longer change.`,
    order: () => 'The end must not lie before the start.',
    after: () => 'The end must lie after the start.',
    span: (field, { days }) => `The time is too long. At most ${days} days.`,
    opening: (field, { minutes }) => `The opening must end after its start, at most ${minutes} min later.`,
    taken: (field, { value }) => `“${value}” exists already. Choose another name, or remove that one.`,
    full: (field, { most }) => `There are ${most} already, and no more are possible. Remove one first.`,
    'not-found': (field, { value }) =>
      value ? `There is no “${value}”.` : 'That does not exist any more, or the address is wrong.',
    same: () => 'Both are the same. Choose two different ones.',
    'wrong-password': () => 'That is not the present password.',
    'wrong-login': () => 'The name or the password is wrong.',
    wait: (field, { seconds }) => `Too many attempts. Try again in ${seconds} s.`,
    'common-password': () => 'This password is guessed first. Choose another.',
    'last-owner': () => 'At least one person must be allowed everything.',
    topics: (field, { most }) =>
      `Please check ${field}: MQTT topics are needed, + for one level, # at the end for all below, at most ${most} characters.`,
    'set-elsewhere': (field) => `${field} is set in the settings file or at the start of the service. Change it there.`,
    picture: () => 'A photo must be a JPEG or PNG picture.',
    'not-heard': (field, { sensor }) =>
      `${sensor} has not been heard yet. Switch the sensor on, or leave the time empty.`,
    silent: (field, { sensor }) =>
      `${sensor} has not sent a reading yet. Switch it on first, and enter the reading that it shows.`,
    'before-first': (field, { sensor, first }) =>
      `That lies before the first reading of ${sensor}. Choose ${first} or later.`,
    'not-placed': (field, { sensor }) => `${sensor} was in no container at that time.`,
    'never-placed': (field, { sensor }) =>
      `${sensor} was in no container at that time or before. Choose a later time, or place the other sensor directly.`,
    placed: (field, { sensor, place, since }) =>
      `${sensor} is ${place ? `in “${place}”` : 'in the room'} already, since ${since}. To change that, correct this placement.`,
    overlaps: (field, { sensor, place, from, until }) =>
      `That overlaps another placement: ${sensor}, ${place ? `in “${place}”` : 'in the room'} from ${from}${until ? ` until ${until}` : ''}. Choose another time, or correct that placement first.`,
    'same-reading': (field, { value, hours }) =>
      `Two points within ${hours} h have the same reading, ${value}. Take the second point at another true value, or remove the first.`,
    'dark-first': (field, { hours }) =>
      `Add a point in the dark first, within ${hours} h: otherwise the sensor would show light where there is none. Remove that point last.`,
    swapped: () =>
      'The reading must rise with the true value. Check whether reading and true value of a point are swapped.',
    gain: (field, { gain, least, most }) =>
      `With the other points this gives a gain of ${gain}; ${least} to ${most} is allowed. Check the values, take the points further apart, or replace the sensor.`,
    'seeds-inside': (field, { sowing }) => `Seeds of sowing ${sowing} lie in it. Move them first.`,
    'seeds-were-inside': (field, { sowing }) =>
      `Seeds of sowing ${sowing} were in it, and their heat is calculated from it.`,
    'species-of-lot': (field, { lot }) => `Seed lot ${lot} is of this species.`,
    'before-gathering': (field, { sowing, sownAt, lot, gatheredAt }) =>
      `Sowing ${sowing} (${sownAt}) would be earlier than the gathering of its lot ${lot} (${gatheredAt}).`,
    'lot-too-small': (field, { lot, seeds, sown }) => `Lot ${lot} has ${seeds} seeds, but ${sown} would be sown.`,
    'before-sowing': () => 'That would be earlier than the sowing.',
    'no-group': (field, { group }) => `There is no group ${group} at that time.`,
    'group-empty': (field, { group, since }) => `Group ${group} has no seeds left in a container since ${since}.`,
    'too-few-seeds': (field, { group, stage, wanted, available }) =>
      `Group ${group} does not have that many ${stage} at that time: ${wanted} entered, ${available} there.`,
    'group-lies-in': (field, { group, place }) =>
      `Group ${group} lies in another container at that time, ${place}. Move the seeds there, or join another group.`,
    'already-there': (field, { group, place }) => `The seeds of group ${group} lie in ${place} already.`,
    'no-seeds': () => 'No seeds would be moved. Enter how many.',
    'corrected-already': () =>
      'That entry has been corrected or withdrawn meanwhile. Load the page again, and correct the new one.',
    'seeds-needed': (field, { most }) =>
      `More than ${most} seeds would be needed. Ask for fewer seedlings or less confidence.`,
    'value-of-method': (field, { value }) => `Please check ${field}: with this method it is ${value}.`,
    role: (field, { needed, role }) =>
      `You may not do this: it needs the right “${needed}”, and you have “${role}”. Ask someone who may do everything.`,
    'signed-out': () => 'You are not signed in any more. Sign in again.',
    'no-login': () => 'This service asks for no login. The setting “login” turns it on.',
    busy: () => 'The service is busy with this already. Try again in a few seconds.',
    'pages-open': (field, { most }) => `There are ${most} live pages open already. Close one of them first.`,
    'not-csv': () => 'This is not a table in CSV. Export it again, or save it as CSV.',
    'no-header': (field, { choices }) => `The first line must name the columns: ${choices}.`,
    'unknown-column': (field, { value, choices }) => `There is no column “${value}”. Columns can be: ${choices}.`,
    'column-twice': () => 'A column is named twice.',
    cells: (field, { cells, columns }) => `This line has ${cells} cells, but the first line names ${columns} columns.`,
    'too-many-rows': (field, { most }) => `The table has more than ${most} rows. Import it in parts.`,
    uuid: (field, { value }) => `Please check ${field}: a UUID is needed, not “${value}”.`,
    differs: (field, { value }) => `“${value}” is here already, with other contents.`,
    'no-zip': () => 'This is not a zip file with tables such as lots.csv.',
    'zip-damaged': () => 'The zip file is damaged. Copy or export it again.',
    'zip-too-large': (field, { most }) => `The zip file unpacks to more than ${most} MB.`,
    'zip-other-file': (field, { file, choices }) =>
      `The zip file holds “${file}”, but may only hold tables, each with .csv behind its name: ${choices}.`,
    'zip-file-twice': (field, { file }) => `The zip file holds “${file}” twice.`,
    encoding: (field, { file }) => `“${file}” is not in UTF-8. Save it in this encoding.`,
    'file-too-large': (field, { most }) =>
      `The file is larger than ${most} GiB. Split it, or use the command “import” on the machine of the service.`,
    'no-space': () => 'The disk of the service has too little space for the file. Make room there.',
    running: () => 'An import is running. Wait for its end, or stop it.',
    done: () => 'This import is done already.',
    'profile-name': (field, { most }) =>
      `The name of a profile has 1 to ${most} letters, digits, spaces and . _ ( ) -, and begins with a letter or digit.`,
  },
  /** Before the rule that an earlier or later entry would break. */
  becauseOfThis: (entry, at) => `Because of this entry, another one would be impossible: ${entry}, ${at}.`,
  entryKinds: {
    sown: 'the sowing',
    moved: 'the move',
    checked: 'the check',
    survival: 'the count of seedlings',
    named: 'the name',
    withdrawn: 'the withdrawal',
  },
  /** By the stage of seeds. */
  seedStages: {
    ungerminated: 'ungerminated seeds',
    germinated: 'germinated seeds',
    alive: 'living seedlings',
  },
  /** By the role. */
  roleNames: { look: 'Look', tend: 'Tend', own: 'Own' },
  refusedUnits: { days: 'days', lux: 'lx', min: 'min' },

  // fault-words.js
  powerOnValue: 'Power-on value',
  sensorChipNotConnected: 'Sensor chip not connected',
  errorCode: 'Error code',
  outOfRange: 'Out of range',
  impossibleValue: 'Impossible value',
  stuckValue: 'Stuck value',
  spike: 'Spike',
  jump: 'Jump',
  saturatedHumidity: 'Saturated humidity',
  saturatedLight: 'Saturated light',
  condensation: 'Condensation',
  twoSensorsDriftApart: 'Two sensors drift apart',
  wrongClock: 'Wrong clock',
  longerInterval: 'Longer interval',
  fallingBattery: 'Falling battery',
  counted: 'counted',
  leftOutOfFigures: 'left out of figures',
  partlyLeftOutOfFigures: 'partly left out of figures',
  battery2: 'Battery',
  allQuantities: 'All quantities',
  refusedOnArrivalLeftOut: 'refused on arrival, left out of figures',
  since: (from) => `since ${from}`,
  to: (from, to) => `${from} to ${to}`,
  exclude: 'Exclude',
  include: 'Include',
  noSensorFaultsInThis: 'No sensor faults in this stretch.',
  faultCount: { one: 'fault', other: 'faults' },
  allCountedInTheFigures: (counted) => `${counted}, all counted in the figures.`,
  itIs: 'it is',
  allAre: 'all are',
  leftOutOfTheFigures: (counted, part) => `${counted}; ${part} left out of the figures.`,
  ofWord: (hours) => `${hours} of `,
  faultyStretchCount: { one: 'faulty stretch', other: 'faulty stretches' },
  leftOutBecauseOfFaults: (join) => `Left out because of faults: ${join}.`,
  leftOutBecauseOfFaults2: (hours) => `${hours} left out because of faults`,
  faults: (join) => `Faults: ${join}.`,
  in7DaysNewest: (counted, inSentence) => `${counted} in 7 days, newest: ${inSentence}`,

  // first-reading.js
  countFromFirstReading: (at) => `Count from its first reading, ${at}`,
  countsFrom: (sensor, at) => `Readings of ${sensor} count for this place from ${at}.`,

  // form.js
  pleaseLookAtThisAgain: 'Please look at this again:',

  // format.js
  saturated: 'saturated',
  lux: (number) => `${number} lux`,
  luxH: (number) => `${number} lux·h`,
  ppm: (number) => `${number} ppm`,
  over999: 'over 99.9 %',
  under01: 'under 0.1 %',

  // gauge.js
  limitsTo: (low, high) => `limits ${low} to ${high}`,
  temperatureNotKnown: (band) => `Temperature not known; ${band}.`,
  belowTheLowerLimit: 'below the lower limit',
  aboveTheUpperLimit: 'above the upper limit',
  withinTheLimits: 'within the limits',

  // health.js
  askingTheServiceHowIt: 'Asking the service how it is …',
  theServiceWorksWithoutProblems: 'The service works without problems.',
  aPartOfTheService: 'A part of the service does not work.',
  theServiceIsStarting: 'The service is starting.',

  // latest-words.js
  readingCount: { one: 'reading', other: 'readings' },
  ofUncertainTime: (counted) => `${counted} of uncertain time`,
  noValuesYet: 'no values yet',

  // limit-words.js
  justNowAnAlertFollows: (title, place) => `${title}, just now: ${place}. An alert follows if it lasts.`,
  forWord3: (duration) => `, for ${duration}`,

  // next-step.js
  noContainerYet: 'There is no container yet.',
  makeAContainer: 'Make a container on the Shelf',

  // open-count.js
  open2: (size) => ` (${size} open)`,

  // page.js
  live: 'Live',
  connecting: 'Connecting',
  notLive: 'Not live',
  theServiceDoesNotAnswer2: 'The service does not answer.',
  partlyKept: (since) =>
    `A part of this page is from ${since} and was kept on this device: the service could not be reached for it. The page asks again by itself.`,
  notLiveSinceWhatYou: (downSince, reason) =>
    `Not live since ${downSince}. ${reason} What you see may be out of date; each figure says how old it is. Trying again by itself.`,

  // quantities.js
  temperature: 'Temperature',
  neverMeasured: 'never measured',
  humidity: 'Humidity',
  notMeasured2: 'not measured',
  light: 'Light',
  co2: 'CO₂',
  co22: 'CO₂ ',
  medium: 'Medium',
  medium2: 'medium ',

  // remedies.js
  compareTopicAndPayloadWith: 'Compare topic and payload with the example in step 1 of the guide on the Shelf.',
  useTheNamesTemperatureHumidity:
    'Use the names temperature, humidity, light, co2, mediumMoisture and battery, with plain numbers in °C, %, lux, ppm, % and V.',
  publishToTheRootTopic:
    'Publish to the root topic, a slash and the sensor’s name. Names have 1 to 64 letters, digits, _ or -.',
  publishBelowTheRootTopic: 'Publish below the root topic, or add a mapping rule for this topic.',
  publishToATopicThat: 'Publish to a topic that this account may use, or change its rights in the settings.',
  letTheDeviceSendOnly: 'Let the device send only when it has measured.',
  sendFewerReadingsInOne: 'Send fewer readings in one message.',
  sendPlainTextInUtf: 'Send plain text in UTF-8.',
  sendOneCompleteJsonObject:
    'Send one complete JSON object. If the payload is cut short, enlarge the message buffer of the device.',
  sendPlainNumbersWithA: 'Send plain numbers with a decimal point, without a unit.',
  checkTheSensorsWiringAnd: 'Check the sensor’s wiring and unit. A loose wire often reads as 85 °C or \u2212127 °C.',
  setTheDevicesClockOr: 'Set the device’s clock. Or send “age”, the seconds since measuring, instead of “at”.',
  publishWithoutTheRetainFlag:
    'Publish without the “retain” flag. The broker sends a retained message again later, as if it were new.',
  setTheClockOfThe: 'Set the clock of the machine on which this service runs.',
  sendTheMinutesFrom0: 'Send the minutes from 0 to 240 as a plain number, or an empty payload for 10 minutes.',
  removeCountersAndTimesFrom: 'Remove counters and times from sensor names, or place the sensor in a container.',
  checkTheClockAndThe: 'Check the clock and the sending interval of the device.',

  // sensor-place.js
  withoutAPlace: 'without a place',
  outsideInTheRoom: 'in the room air',
  inWord: (name) => `in ${name}`,

  // text.js
  and: (join, at) => `${join} and ${at}`,
  titleInSentence: (title) => (/^\p{Lu}\p{Ll}/u.test(title) ? title.charAt(0).toLowerCase() + title.slice(1) : title),

  // tile.js
  last: (show) => `last ${show}, `,

  // time-format.js
  justNow: 'just now',
  sAgo: (part) => `${part} s ago`,
  ago: (ms) => `${ms} ago`,
  today: (text) => `today ${text}`,
  seconds: (n) => `${n} s`,
  minutes: (n) => `${n} min`,
  hours: (n) => `${n} h`,
  days: (n) => `${n} ${n === 1 ? 'day' : 'days'}`,
  inTime: (ms) => `in ${ms}`,

  // trouble.js
  tryingAgainByItself: 'Trying again by itself.',

  // unit-switch.js
  fahrenheitChangeToCelsius: 'Fahrenheit; change to Celsius',
  celsiusChangeToFahrenheit: 'Celsius; change to Fahrenheit',
  temperaturesIn: (part) => `Temperatures in ${part}`,

  // visitor.js
  noLoginEveryoneWhoReaches:
    'No login: everyone who reaches this address can change everything, unless a proxy asks for a login. The setting login is never.',
  people: 'People',
  account: 'Account',
  signOut: 'Sign out',
  entryCount: { one: 'entry', other: 'entries' },
  sendOrDiscardFirst: (counted) =>
    `This device still has to send ${counted}. Send or discard everything on the page Tally, then sign out.`,
  stillSignedIn:
    'The service does not answer, so you are still signed in. What was kept on this device is deleted; sign out again once the service answers.',
  signedInAs: (name) => `Signed in as ${name}`,
  signIn: 'Sign in',
  youAreSignedOut: 'You are signed out.',

  // container-fields.js
  name: 'Name',
  asWrittenOnItFor: 'As written on it, for instance “Jar 3, willow”.',
  kind: 'Kind',
  limitsYouGetAnAlert: 'Limits: you get an alert outside of them',
  notColderThan: 'Not colder than',
  notHotterThan: 'Not hotter than',
  notBrighterThanLux: 'Not brighter than (lux)',
  darkIs0ASensor: 'Dark is 0; a sensor may show 1 in full darkness.',
  notDrierThan: 'Not drier than (%)',
  humidityClosedAndMoistIs: 'Humidity. Closed and moist is near 100.',
  countingHeat: 'Counting heat',
  baseTemperature: 'Base temperature',
  belowThisSeedsGainNothing: 'Below this, no heat counts.',
  ceilingTemperature: 'Ceiling temperature',
  aboveItHeatCountsAs: 'Above this temperature, heat counts as if it were exactly this warm. Empty: no ceiling.',
  heatSource: 'Heat source',
  heatMat: 'Heat mat',
  warmCloset: 'Warm closet',
  containersWithTheSameWords:
    'Containers with the same words here are taken to be on the same source. Empty: nothing warms it.',
  mainsNearWater: 'Mains near water. ',
  putMatThermostatAndPlugs:
    'Put mat, thermostat and plugs behind residual-current protection, above any spill, with a drip loop in the cable. Follow local codes; fixed wiring is for a licensed electrician. Let the thermostat, not this service, switch the mat.',

  // container-form.js
  aNumberIsMissing: (title) => `${title}: a number is missing.`,
  isNotANumber: (title, part) => `${title}: “${part}” is not a number.`,
  fromTo: (title, min, max) => `${title}: from ${min} to ${max}.`,
  nameGiveTheContainerA: 'Name: give the container a name.',
  notBrighterThan: 'Not brighter than',
  notDrierThan2: 'Not drier than',
  notHotterThanMustBe: '“Not hotter than” must be above “Not colder than”.',
  theCeilingMustBeAbove: 'The ceiling must be above the base.',
  roomOrBench: 'Room or bench',
  whereItStands: 'Where it stands. Containers with the same words are shown together.',

  // card.js
  placeASensor: 'Place a sensor',
  heatSoFar: 'Heat so far',
  n24HAgo: '24 h ago',
  now2: 'now',
  noHeatSourceNamed: 'no heat source named',
  noReadingsToAddUp: 'no readings to add up yet',
  countsFromTheNext: 'counts from the next reading on',
  temperatureOverThePast24: (words) => `Temperature over the past 24 hours: ${words}.`,
  wasInOrder: 'Was in order',
  inOrderWhenLastHeard: 'In order when last heard; the page is not live.',

  // zone.js, zone-line.js
  useTheZoneOfThisDevice: (zone) => `Use this device’s: ${zone}`,
  useTheZoneOfTheService: (zone) => `Use the service’s: ${zone}`,
  timesAsInZone: (zone) => `Times are in the zone ${zone}.`,
  inZone: (zone) => `Time zone ${zone}.`,

  // bench-words.js
  aSensorOfWithOne: (part, part2) => `a sensor of ${part} with one of ${part2}`,
  allPairs: 'All',
  butTheirSensorsMayBe: (difference, sensorError, unit) =>
    `${difference}, but their sensors may be wrong by that much (±${sensorError} ${unit}). `,
  chanceAloneDoesThatIn: (counts, one) => `${counts}, chance alone does that in ${one} of 100 cases.`,
  each: 'each',
  gaveMoreThan: (more, heat, unit, less) => `${more} gave ${heat} ${unit} more than ${less}`,
  hADay: (unitName) => `${unitName}·h a day`,
  itCanBeDueTo: (counts, sides) =>
    `${counts} it can be due to the containers and not to the heat source: add a container to ${sides}.`,
  noClearDifferenceInHeat: (part, part2, low, high, unit) =>
    `No clear difference in heat between ${part} and ${part2}: likely from ${low} to ${high} ${unit}. `,
  nonePairs: 'None',
  pairsDiffer: (shown, pairs, isOne) =>
    `${shown} of ${pairs} pairs ${isOne ? 'differs' : 'differ'} clearly in heat. About one pair in twenty would do so by chance alone.`,
  swapAndMeasureAgain: (part) => `Swap ${part}, and measure again.`,
  thatCanBeDueTo: (difference, sides) =>
    `${difference}. That can be due to these containers and not to the heat source: add a container to ${sides}.`,
  thatCanStillBeChance: (counts, sides) => `${counts} that can still be chance: add a container to ${sides}.`,
  theErrorOfTheirSensors: (sensorError, unit) =>
    `The error of their sensors can hide a difference of up to ${sensorError} ${unit}.`,
  theSensorOfWithThat: (part, part2) => `the sensor of ${part} with that of ${part2}`,
  tooFewHours: (first, second, hours, days) =>
    `Too few hours to compare ${first} and ${second}: ${hours} were measured in both, and at least ${days} days are needed.`,
  withAndContainers: (part, part2) => ` With ${part} and ${part2} containers`,
};
