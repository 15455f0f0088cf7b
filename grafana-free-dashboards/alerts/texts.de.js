// The German texts of this page.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    alerts: 'Warnungen',
    partsOfThisPage: 'Teile dieser Seite',
    whatRaisesAnAlert: 'Wann gewarnt wird',
    askingTheService: 'Der Dienst wird gefragt …',
    open: 'Offen',
    tellMeOnThisDevice: 'Auf diesem Gerät melden',
    yourNameForTheRecord: 'Name für die Aufzeichnung',
    storedOnThisDeviceRecorded:
      'Auf diesem Gerät gespeichert. Wird beim Bestätigen oder Pausieren einer Warnung aufgezeichnet.',
    paused: 'Pausiert',
    nothingIsPaused: 'Nichts ist pausiert.',
    history: 'Verlauf',
    container: 'Behälter',
    what: 'Was',
    thereWasNoAlertYet: 'Bisher gab es keine Warnung.',
    noneOfThisKindIn: 'Keine dieser Art in diesem Behälter.',
    figures: 'Zahlen',
    overTheLast: 'Über die letzten',
    day: '24 Stunden',
    n7Days: '7 Tage',
    n30Days: '30 Tage',
    n90Days: '90 Tage',
    notifiers: 'Meldewege',
    setUpNotices: 'Meldungen einrichten',
    notices: 'Meldungen',
    noNoticeHasBeenSent: 'Es wurde noch keine Meldung gesendet.',
  },

  // alerts.js
  open: (open) => `Offen (${open})`,
  paused: (shelved) => `Pausiert (${shelved})`,
  alertsTepidarium: (open) => `(${open}) Warnungen · Tepidarium`,
  alertsTepidarium2: 'Warnungen · Tepidarium',

  // figures.js
  container: 'Behälter',
  what: 'Was',
  raised: 'Ausgelöst',
  aDay: 'Je Tag',
  ofAll: 'Von allen',
  remarks: 'Bemerkungen',
  whereTheyComeFromMost: 'Woher sie kommen, die meisten zuerst.',
  whatWouldMakeThemFewer: 'Was sie seltener machen würde',
  calculatedFromTheStoredReadings:
    'Aus den gespeicherten Messwerten berechnet. Hysteresen und Verzögerungen stehen auf der Seite des Behälters unter Einstellungen.',
  test: (name) => `Ausprobieren: ${name}`,
  test2: 'Ausprobieren',
  itsWords: 'Wortlaut',

  // history.js
  all: 'Alle',
  whatHappenedWhen: 'Was wann geschah',
  foundLateReadingsThatCame: 'Spät gefunden: Später eingetroffene Messwerte zeigen sie; sie wurde niemandem gemeldet.',

  // lists.js
  nothingIsOpen: 'Nichts ist offen.',
  noContainerYet: 'Es gibt noch keinen Behälter, also kann nichts eine Warnung auslösen.',
  acknowledge: (title, alert) => `Bestätigen: ${title}, ${alert}`,
  acknowledge2: 'Bestätigen',
  pause: 'Pausieren',
  forMinutes: 'Für (Minuten)',
  whyMayStayEmpty: 'Warum (darf leer bleiben)',
  nobodyIsNotifiedUntilThen: 'Bis dahin wird niemandem gemeldet. Danach steht die Warnung wieder unter den offenen.',
  pauseIt: 'Pausieren',
  endThePause: 'Pause beenden',
  by: (shelvedBy) => ` von ${shelvedBy}`,
  pausedUntilThenItIs: (until, part) => `Pausiert bis ${until}${part}; dann wieder offen.`,

  // notice-words.js
  waiting: 'wartet',
  delivered: 'zugestellt',
  failed: 'FEHLGESCHLAGEN',
  perhapsSent: (at) => `vielleicht gesendet ${at} (der Dienst endete währenddessen), wird nicht noch einmal gesendet`,
  tryWordCount: { one: 'Versuch', other: 'Versuchen' },
  after: (counted) => `nach ${counted}`,
  nextTry: (nextAt) => `nächster Versuch ${nextAt}`,
  openPages: 'offene Seiten',
  eMail: 'E-Mail',
  webhook: 'Webhook',
  mqtt: 'MQTT',
  onlyWhenNobodyAcknowledgesIn: 'nur wenn niemand rechtzeitig bestätigt',
  lastDelivered: (lastDeliveredAt) => `zuletzt zugestellt ${lastDeliveredAt}`,
  nothingDeliveredYet: 'noch nichts zugestellt',
  waiting2: (waiting) => `${waiting} wartend`,
  failed2: (failed) => `${failed} fehlgeschlagen`,
  itArrived: (words) => `Angekommen: ${words}.`,
  itDidNotArrive: (words) => `Nicht angekommen: ${words}.`,
  thisDeviceStaysQuietA:
    'Dieses Gerät bleibt still. Zum Melden muss eine Seite offen sein; für die Nacht E-Mail oder einen anderen Meldeweg einrichten.',
  aSoundAndANotification: 'Ein Ton und eine Benachrichtigung, solange eine dieser Seiten offen und das Gerät wach ist.',
  aSoundOnlyAsLong:
    'Nur ein Ton, solange eine dieser Seiten offen und das Gerät wach ist: Der Browser erlaubt Benachrichtigungen nur über https oder auf dem Rechner selbst.',
  aSoundOnlyAsLong2:
    'Nur ein Ton, solange eine dieser Seiten offen und das Gerät wach ist: Benachrichtigungen sind in den Einstellungen des Browsers nicht erlaubt.',

  // tabs.js
  open2: 'Offen',
  paused2: 'Pausiert',
  history: 'Verlauf',
  figures: 'Zahlen',
  notices: 'Meldungen',

  // telling.js
  keepQuietOnThisDevice: 'Auf diesem Gerät still bleiben',
  tellMeOnThisDevice: 'Auf diesem Gerät melden',

  // told-words.js
  toldRaised: (at) => `Gemeldet ${at}:`,
  toldReturned: (at) => `Ende gemeldet ${at}:`,
  toldReminder: (at) => `Erinnert ${at}:`,
  toldEscalation: (at) => `Anderen gemeldet ${at}, weil niemand bestätigt hat:`,
  toldOther: (at) => `Meldung von ${at}:`,
  toldBefore: (at) => `Gemeldet ${at}, zusammen mit anderen Warnungen.`,
  notTold: 'Noch niemandem gemeldet.',
  notToldAcknowledged: 'Niemandem gemeldet: vorher schon bestätigt.',
  notToldPaused: (until) => `Noch niemandem gemeldet: pausiert bis ${until}.`,
  notToldQuiet: (until) => `Noch niemandem gemeldet: Ruhezeit bis ${until}.`,
  notToldCollecting: (until) => `Noch niemandem gemeldet: Weitere Warnungen werden bis ${until} gesammelt.`,
  notToldGrouped: (until) =>
    `Noch niemandem gemeldet: Vor Kurzem ging eine Meldung dieser Art hinaus. Die nächste geht frühestens ${until} hinaus.`,
  onlyOpenPages: 'Nur offene Seiten erhalten Meldungen: Weder E-Mail noch Webhook ist eingerichtet.',

  // words.js
  backToNormal: 'Wieder normal',
  acknowledged: 'Bestätigt',
  pauseEnded: 'Pause beendet',
  turnedOff: 'Abgeschaltet',
  turnedOnAgain: 'Wieder eingeschaltet',
  foundLateInReadingsThat: 'Spät gefunden, in später eingetroffenen Messwerten; niemandem gemeldet',
  noted: (stamp, recordedAt) => `${stamp}, bemerkt ${recordedAt}`,
  forWord: (since, length) => `${since}, Dauer ${length}`,
  sinceStillGoingOn: (since, length) => `seit ${since}, dauert an (${length})`,
  noAlertWasRaisedIn: (span) => `Keine Warnung in dieser Zeit: ${span}.`,
  alertCount: { one: 'Warnung', other: 'Warnungen' },
  inTheLastADay: (counted, span, perDay) => `${counted}, Zeitraum ${span}: ${perDay} je Tag.`,
  floodCount: { one: 'Flut', other: 'Fluten' },
  upToAlertsWithinTen: (counted, mostInTenMinutes) =>
    `${counted}: bis zu ${mostInTenMinutes} Warnungen in zehn Minuten, mehr als ein Mensch verfolgen kann.`,
  it: 'sie',
  them: 'sie',
  staleGoingOnForMore: (counted, part) =>
    `${counted} veraltet: seit mehr als einem Tag aktiv, darum liest ${part} keiner mehr. Die Ursache beheben oder diese Warnung abschalten.`,
  chatteringItCameBackAgain: 'flattert: kam innerhalb von Minuten immer wieder',
  repeating: 'wiederholt sich',
  stale: (stale) => `${stale} veraltet`,
  aDeadbandOf: (deadband) => `einer Hysterese von ${deadband}`,
  anOnDelayOf: (duration) => `einer Verzögerung des Beginns von ${duration}`,
  anOffDelayOf: (duration) => `einer Verzögerung des Endes von ${duration}`,
  withItWouldHaveBeen: (change, raisedAfter, raisedBefore) =>
    `Mit ${change} wäre sie ${raisedAfter} statt ${raisedBefore} ausgelöst worden.`,
  once: 'einmal',
  times: (number) => `${number}-mal`,
  forHowLongGiveMinutes: 'Wie lange? Minuten angeben, mehr als 0 und höchstens 10080 (eine Woche).',
};
