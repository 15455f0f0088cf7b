// The English texts of this page.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    alerts: 'Alerts',
    partsOfThisPage: 'Parts of this page',
    whatRaisesAnAlert: 'What raises an alert',
    askingTheService: 'Asking the service …',
    open: 'Open',
    tellMeOnThisDevice: 'Tell me on this device',
    yourNameForTheRecord: 'Your name, for the record',
    storedOnThisDeviceRecorded: 'Stored on this device. Recorded when you acknowledge or pause an alert.',
    paused: 'Paused',
    nothingIsPaused: 'Nothing is paused.',
    history: 'History',
    container: 'Container',
    what: 'What',
    thereWasNoAlertYet: 'There was no alert yet.',
    noneOfThisKindIn: 'None of this kind in this container.',
    figures: 'Figures',
    overTheLast: 'Over the last',
    day: 'day',
    n7Days: '7 days',
    n30Days: '30 days',
    n90Days: '90 days',
    notifiers: 'Notifiers',
    setUpNotices: 'Set up notices',
    notices: 'Notices',
    noNoticeHasBeenSent: 'No notice has been sent yet.',
  },

  // alerts.js
  open: (open) => `Open (${open})`,
  paused: (shelved) => `Paused (${shelved})`,
  alertsTepidarium: (open) => `(${open}) Alerts · Tepidarium`,
  alertsTepidarium2: 'Alerts · Tepidarium',

  // figures.js
  container: 'Container',
  what: 'What',
  raised: 'Raised',
  aDay: 'A day',
  ofAll: 'Of all',
  remarks: 'Remarks',
  whereTheyComeFromMost: 'Where they come from, most first.',
  whatWouldMakeThemFewer: 'How to get fewer',
  calculatedFromTheStoredReadings:
    'Calculated from the stored readings. Set deadbands and delays on the container’s page, under Settings.',
  test: (name) => `Test ${name}`,
  test2: 'Test',
  itsWords: 'Its words',

  // history.js
  all: 'All',
  whatHappenedWhen: 'What happened when',
  foundLateReadingsThatCame: 'Found late: readings that came afterwards show it; nobody was told.',

  // lists.js
  nothingIsOpen: 'Nothing is open.',
  noContainerYet: 'There is no container yet, so nothing can raise an alert.',
  acknowledge: (title, alert) => `Acknowledge: ${title}, ${alert}`,
  acknowledge2: 'Acknowledge',
  pause: 'Pause',
  forMinutes: 'For (minutes)',
  whyMayStayEmpty: 'Why (may stay empty)',
  nobodyIsNotifiedUntilThen: 'Nobody is notified until then. Afterwards the alert is listed as open again.',
  pauseIt: 'Pause it',
  endThePause: 'End the pause',
  by: (shelvedBy) => ` by ${shelvedBy}`,
  pausedUntilThenItIs: (until, part) => `Paused until ${until}${part}; then it is open again.`,

  // notice-words.js
  waiting: 'waiting',
  delivered: 'delivered',
  failed: 'FAILED',
  perhapsSent: (at) => `perhaps sent ${at} (the service ended meanwhile), not sent again`,
  tryWordCount: { one: 'try', other: 'tries' },
  after: (counted) => `after ${counted}`,
  nextTry: (nextAt) => `next try ${nextAt}`,
  openPages: 'open pages',
  eMail: 'e-mail',
  webhook: 'webhook',
  mqtt: 'MQTT',
  onlyWhenNobodyAcknowledgesIn: 'only when nobody acknowledges in time',
  lastDelivered: (lastDeliveredAt) => `last delivered ${lastDeliveredAt}`,
  nothingDeliveredYet: 'nothing delivered yet',
  waiting2: (waiting) => `${waiting} waiting`,
  failed2: (failed) => `${failed} failed`,
  itArrived: (words) => `It arrived: ${words}.`,
  itDidNotArrive: (words) => `It did not arrive: ${words}.`,
  thisDeviceStaysQuietA:
    'This device stays quiet. A page must be open to tell; for the night, set up e-mail or another notifier.',
  aSoundAndANotification: 'A sound and a notification, as long as one of these pages is open and the device awake.',
  aSoundOnlyAsLong:
    'A sound only, as long as one of these pages is open and the device awake: the browser allows notifications only over https or on the machine itself.',
  aSoundOnlyAsLong2:
    'A sound only, as long as one of these pages is open and the device awake: notifications are not allowed in the browser’s settings.',

  // tabs.js
  open2: 'Open',
  paused2: 'Paused',
  history: 'History',
  figures: 'Figures',
  notices: 'Notices',

  // telling.js
  keepQuietOnThisDevice: 'Keep quiet on this device',
  tellMeOnThisDevice: 'Tell me on this device',

  // told-words.js
  toldRaised: (at) => `Told ${at}:`,
  toldReturned: (at) => `Told ${at} that it is over:`,
  toldReminder: (at) => `Reminded ${at}:`,
  toldEscalation: (at) => `Told others ${at}, since nobody acknowledged it:`,
  toldOther: (at) => `Notice of ${at}:`,
  toldBefore: (at) => `Told ${at}, within a notice about several.`,
  notTold: 'Nobody has been told yet.',
  notToldAcknowledged: 'Nobody was told: it was acknowledged first.',
  notToldPaused: (until) => `Nobody has been told yet: it is paused until ${until}.`,
  notToldQuiet: (until) => `Nobody has been told yet: quiet hours until ${until}.`,
  notToldCollecting: (until) => `Nobody has been told yet: further alerts are collected until ${until}.`,
  notToldGrouped: (until) =>
    `Nobody has been told yet: a notice of this kind was sent a short time ago. The next one is sent at ${until} or later.`,
  onlyOpenPages: 'Only open pages are told: no e-mail and no webhook is set up.',

  // words.js
  backToNormal: 'Back to normal',
  acknowledged: 'Acknowledged',
  pauseEnded: 'Pause ended',
  turnedOff: 'Turned off',
  turnedOnAgain: 'Turned on again',
  foundLateInReadingsThat: 'Found late, in readings that came afterwards; nobody was told',
  noted: (stamp, recordedAt) => `${stamp}, noted ${recordedAt}`,
  forWord: (since, length) => `${since}, for ${length}`,
  sinceStillGoingOn: (since, length) => `since ${since}, still going on (${length})`,
  noAlertWasRaisedIn: (span) => `No alert was raised in the last ${span}.`,
  alertCount: { one: 'alert', other: 'alerts' },
  inTheLastADay: (counted, span, perDay) => `${counted} in the last ${span}: ${perDay} a day.`,
  floodCount: { one: 'flood', other: 'floods' },
  upToAlertsWithinTen: (counted, mostInTenMinutes) =>
    `${counted}: up to ${mostInTenMinutes} alerts within ten minutes, more than a person can follow.`,
  it: 'it',
  them: 'them',
  staleGoingOnForMore: (counted, part) =>
    `${counted} stale: active for more than a day, so nobody reads ${part} any more. Fix the cause, or turn this alert off.`,
  chatteringItCameBackAgain: 'chattering: it came back again and again within minutes',
  repeating: 'repeating',
  stale: (stale) => `${stale} stale`,
  aDeadbandOf: (deadband) => `a deadband of ${deadband}`,
  anOnDelayOf: (duration) => `an on-delay of ${duration}`,
  anOffDelayOf: (duration) => `an off-delay of ${duration}`,
  withItWouldHaveBeen: (change, raisedAfter, raisedBefore) =>
    `With ${change} it would have been raised ${raisedAfter} instead of ${raisedBefore}.`,
  once: 'once',
  times: (number) => `${number} times`,
  forHowLongGiveMinutes: 'For how long? Give minutes, more than 0 and at most 10080 (a week).',
};
