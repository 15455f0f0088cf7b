// The German texts of all pages.
//
// The same word for the same thing on every page:
//
//   acknowledge: bestätigen        band: Grenzen              bench, heat bench: Wärmevergleich
//   check (of seeds): Kontrolle    container: Behälter        cull: aussondern
//   deadband: Hysterese            degree-hours: Gradstunden  excursion: Abweichung
//   fault: Fehler                  figures: Auswertung        final fraction: Keimanteil
//   gap: Lücke                     gather: sammeln            heat so far: Wärmesumme
//   germinate: keimen              heat mat: Heizmatte        heat source: Wärmequelle
//   jar, box, bag, tray: Glas, Kasten, Beutel, Schale         label: Etikett
//   leak (of light): Lichteinfall  limit: Grenze              lot: Saatgutpartie
//   mapping rule: Zuordnungsregel  medium: Substrat           notice: Meldung
//   opening: Öffnung               alert: Warnung             pause: pausieren
//   priority: Dringlichkeit        quantity: Messgröße        rate (a day): je Tag
//   placement: Einsatz             pot on: topfen             reading: Messwert
//   retire: ausmustern             root: Keimwurzel           seed: Samen
//   seedling: Sämling              service: Dienst            shelf: Regal
//   sow, sowing: säen, Aussaat     species: Art               tally: Zählbuch
//
// Infinitives and nouns where they do; "Sie" not at all.

/** A length of time after "seit", "vor" or "in": the word for days takes an n there. */
export const dative = (length) => length.replace(/\bTage\b/, 'Tagen');

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    language: 'de',
    otherLanguage: 'en',
    otherLanguageName: 'English',
    tepidariumToTheShelf: 'Tepidarium, zum Regal',
    pages: 'Seiten',
    toTheContent: 'Zum Inhalt',
    shelf: 'Regal',
    alerts: 'Warnungen',
    tally: 'Zählbuch',
    charts: 'Diagramme',
    heatBench: 'Wärmevergleich',
    sensors: 'Sensoren',
    sites: 'Standorte',
    files: 'Dateien',
    notUnderstood: 'Nicht verstanden',
    pressAnywhereOnThisPage:
      'Irgendwo auf diese Seite tippen. Bis dahin spielt der Browser bei einer Meldung keinen Ton.',
    figuresOnThesePagesNeed:
      'Die Zahlen auf diesen Seiten brauchen JavaScript. Von anderen Servern wird nichts geladen.',
    service: 'Dienst',
    withoutNetworkNeedsTls:
      'Mit TLS gehen diese Seiten auch ohne Netz und lassen sich installieren: <a href="/docs/operation.html#tls">so geht TLS</a>.',
    howIsThisWorkedOut: 'Wie wird das berechnet?',
    cautions: 'Gefahren',
    counting: 'Zählen',
    notices: 'Meldungen',
    settings: 'Einstellungen',
    stores: 'Speicher',
    operation: 'Betrieb',
    api: 'API',
    changes: 'Änderungen',
    help: 'Hilfe (englisch):',
  },

  // alert-groups.js
  acknowledgeAll: 'Alle bestätigen',
  pauseAllFor1H: 'Alle 1 h pausieren',
  containerCount: { one: 'Behälter', other: 'Behälter' },
  onLookAtTheHeat: (counted, source, group) => `${counted} an „${source}“ ${group}. Zuerst nach der Wärmequelle sehen.`,

  // alert-item.js
  acknowledge: (title, name) => `Bestätigen: ${title}, ${name}`,
  acknowledge2: 'Bestätigen',
  pauseForOneHour: (title, name) => `Eine Stunde pausieren: ${title}, ${name}`,
  pauseFor1H: '1 h pausieren',

  // alert-reasons.js
  signNotMeasurable: (sensor, value) =>
    `${sensor} meldet ${value}, das kann kein Sensor messen: die Verkabelung prüfen`,
  signPowerOn: (sensor, value) =>
    `${sensor} meldet genau ${value} wie ein DS18B20 nach dem Einschalten: Versorgung und Kabel prüfen`,
  signImpossible: (sensor, value) => `${sensor} meldet ${value}, in einem Keimbehälter unmöglich: den Sensor prüfen`,
  signStuck: (sensor, value, time) =>
    `${sensor} meldet seit ${dative(time)} unverändert ${value}, während andere sich ändern: neu starten, Verkabelung prüfen`,
  signJumping: (sensor, step) =>
    `${sensor} springt um ${step} oder mehr auf und ab, unmöglich in einem geschlossenen Behälter: Verkabelung und Versorgung prüfen`,
  signDisagreeing: (sensor, other, difference) =>
    `${sensor} und ${other} weichen um ${difference} voneinander ab, mehr als ihre Fehler erlauben: nebeneinander vergleichen`,
  itCameTrue: (alert) => `die Warnung „${alert}“ kam`,
  noSensorAnyMore: 'kein Sensor ist mehr darin',
  beganEarlier: (since) => `es begann früher als damals bekannt: ${since}`,
  timeBefore: (since, until, worst) => `das Mal davor von ${since} bis ${until}${worst}`,
  timeBeforeFrom: (since, worst) => `das Mal davor ab ${since}${worst}`,

  // alert-words.js
  lasted: (lasting) => `Dauerte ${lasting}`,
  forWord: (lasting) => `Seit ${dative(lasting)}`,
  signsOfFault: (detail) => `Anzeichen eines Sensorfehlers: „${detail}“ (auf Deutsch auf der Seite Sensoren)`,
  trend: (value, perHour, steady) => `jetzt ${value}, Änderung ${perHour} je Stunde, auf etwa ${steady} zu`,
  outsideAtAbout: (forecastAt) => `außerhalb etwa um ${forecastAt}`,
  nothingWasHeardFor: (lasting) => `${lasting} lang kam nichts`,
  nothingHeardForSoNobody: (lasting) => `Seit ${dative(lasting)} kommt nichts; niemand weiß, wie es innen ist`,
  was: 'War ',
  forWord2: (part, limitWord, limit, lasting) => `${part}${limitWord} ${limit}, Dauer ${lasting}`,
  now: (unitOf) => `jetzt ${unitOf}`,
  pausedUntilThenItIs: (shelvedUntil) => `Pausiert bis ${shelvedUntil}; dann wieder offen.`,
  overSinceNobodyHasAcknowledged: (returnedAt) => `Vorbei seit ${returnedAt}. Noch von niemandem bestätigt.`,
  by: (acknowledgedBy) => ` von ${acknowledgedBy}`,
  acknowledged: (acknowledgedAt, part) => `Bestätigt ${acknowledgedAt}${part}.`,

  // attention.js
  pausedAlertCount: { one: 'pausierte Warnung', other: 'pausierte Warnungen' },
  newAlert: (title, containerName, alert) => `Neue Warnung. ${title}: ${containerName}. ${alert}`,

  // call.js
  theServiceDoesNotAnswer: 'Der Dienst antwortet nicht. Läuft er, und ist dieses Gerät in seinem Netz?',
  theServiceSentAnAnswer: 'Die Antwort des Dienstes war nicht lesbar.',
  theServiceRefused: (status) => `Der Dienst hat abgelehnt (${status}).`,

  // conditions.js
  tooCold: 'Zu kalt',
  areTooCold: 'sind zu kalt',
  below: 'unter',
  coldest: 'am kältesten',
  tooDry: 'Zu trocken',
  areTooDry: 'sind zu trocken',
  driest: 'am trockensten',
  silent: 'Stumm',
  areSilent: 'sind stumm',
  notMeasuredReliably: 'Nicht zuverlässig gemessen',
  areNotMeasuredReliably: 'werden nicht zuverlässig gemessen',
  gettingTooCold: 'Wird zu kalt',
  areGettingTooCold: 'werden zu kalt',
  lightInside: 'Licht innen',
  haveLightInside: 'haben Licht innen',
  above: 'über',
  brightest: 'am hellsten',
  tooHot: 'Zu warm',
  areTooHot: 'sind zu warm',
  hottest: 'am wärmsten',
  gettingTooHot: 'Wird zu warm',
  areGettingTooHot: 'werden zu warm',
  mediumDry: 'Substrat trocken',
  areDryInTheirMedium: 'haben trockenes Substrat',
  shortOfAir: 'Zu wenig frische Luft',
  areShortOfAir: 'haben zu wenig frische Luft',
  highest: 'am höchsten',
  batteryLow: 'Batterie schwach',
  areLowOnBattery: 'haben eine schwache Batterie',
  lowest: 'am niedrigsten',
  beyond: 'jenseits von',
  worst: 'im schlimmsten Fall',

  // container-words.js
  jar: 'Glas',
  box: 'Kasten',
  bag: 'Beutel',
  tray: 'Schale',
  noSensorPlaced: 'kein Sensor eingesetzt',
  notReported: 'nicht gemeldet',
  noSensor: 'Kein Sensor',
  noSensorIsPlacedHere: 'Hier ist kein Sensor eingesetzt, also ist nichts bekannt.',
  openForACheckUntil: (until) => `Zur Kontrolle offen bis ${until}; Licht zählt so lange als Öffnung.`,
  itsTemperatureWasNotCompared: 'Die Temperatur wird ab dem nächsten Messwert mit den Grenzen verglichen.',
  notCheckedYet: 'Noch nicht geprüft',
  aSensorIsPlacedBut: 'Ein Sensor ist eingesetzt, aber von ihm kam noch keine Temperatur.',
  pausedForNow: 'Vorläufig pausiert.',
  acknowledged2: 'Bestätigt.',
  needsYou: 'Braucht Hilfe',
  seenByYou: 'Gesehen',
  drifting: 'Weicht ab',
  open: 'Offen',
  noReadingYet: 'Noch kein Messwert',
  stateUnknown: 'Zustand unbekannt',
  inOrder: 'In Ordnung',
  inOrderAtTheLastReading: (duration) => `In Ordnung beim letzten Messwert, vor ${dative(duration)}.`,
  nothingHasBeenHeardFrom: 'Vom Sensor kam noch nichts.',
  nothingHeardForItMay: (duration) =>
    `Seit ${dative(duration)} kommt nichts. Vielleicht ist es kalt oder offen: Sensor und Batterie prüfen.`,
  warm: 'warm',
  dark: 'dunkel',
  moist: 'feucht',
  darkness: 'Dunkelheit',
  moisture: 'Feuchte',
  noReadingNow: 'Zurzeit kein Messwert',
  notMeasured: 'Nicht gemessen',
  missing: (gapHours, part) => `${gapHours} fehlen${part}`,
  betweenAnd: (heat, lower, upper) => `${heat}: zwischen ${lower} und ${upper}`,
  battery: (volts) => `Batterie ${volts}`,

  // copy.js
  copied: 'Kopiert',
  selectAndCopyByHand: 'Von Hand markieren und kopieren',

  // fault-list.js
  decidedBy: (by) => `, entschieden von ${by}`,

  // fault-reasons.js
  seconds2: (n) => `${n} s`,
  minutes2: (n) => `${n} min`,
  hours2: (n) => `${n} h`,
  days2: (n) => `${n} Tage`,
  reasonPowerOn: (value) =>
    `Genau ${value}: Das meldet ein DS18B20 nach dem Einschalten, vor seiner ersten Messung. Versorgung und Kabel prüfen.`,
  reasonNotConnected: (value) => `${value}: Der Sensorchip antwortete nicht. Kabel und Stecker prüfen.`,
  reasonRawLimit: (values) => `${values}: Alle Bits des Rohwerts sind gleich. Die Verdrahtung des Chips prüfen.`,
  reasonOutOfRange: (values) =>
    `${values} liegt außerhalb dessen, was ein Sensor messen kann. Den Sensor und seine Einheit prüfen.`,
  reasonImplausible: (values) => `${values} ist in einem Keimbehälter unmöglich. Den Sensor prüfen.`,
  reasonStuck: (values, time) =>
    `${values}, ${time} lang ohne jede Änderung, obwohl sich die Werte dieses Sensors sonst ändern. Den Sensor neu starten, die Verdrahtung prüfen.`,
  reasonSpike: (values) => `${values}, weit entfernt von den Messwerten davor und danach. Die Verdrahtung prüfen.`,
  reasonJump: (before, after) =>
    `Sprang von ${before} auf ${after} und blieb dort. Prüfen, ob der Sensor bewegt wurde.`,
  reasonSaturatedHumidity: (time) => `${time} lang am Ende der Feuchteskala. Unterschiede bedeuten dort wenig.`,
  reasonSaturatedLight: 'Der Lichtsensor ist am Ende seiner Skala: sehr helles Licht, oder er ist nicht angeschlossen.',
  reasonCondensation:
    'Gesättigte Luft, während die Temperatur fiel: Wasser schlägt sich auf dem Sensor nieder. Er zeigt stundenlang zu viel Feuchte an.',
  reasonDrift: (other, difference) =>
    `Weicht von ${other} im selben Behälter um ${difference} ab, mehr, als die Fehler der beiden erklären. Beide nebeneinander vergleichen.`,
  reasonWrongClock: (behind, time) =>
    `Die Uhr des Sensors geht um mindestens ${time} ${behind ? 'nach' : 'vor'}. Die Uhr stellen, oder age statt at senden.`,
  reasonInterval: (after, before) => `Meldet sich alle ${after} statt alle ${before}. Funk und Batterie prüfen.`,
  reasonBattery: (before, after) =>
    `Die Batteriespannung fiel binnen einer Woche von ${before} auf ${after}. Laden oder wechseln.`,

  // refusals.js
  fieldNames: {
    name: 'Name',
    minutes: 'Dauer in Minuten',
    from: 'Beginn',
    to: 'Ende',
    until: 'Ende',
    at: 'Zeitpunkt',
    by: 'Name der Person',
    reason: 'Grund',
    remark: 'Bemerkung',
    note: 'Notiz',
    base: 'Basistemperatur',
    ceiling: 'Obergrenze der Temperatur',
    seeds: 'Samen',
    germinated: 'Gekeimt',
    sown: 'Gesät',
    min: 'Tiefste Temperatur',
    max: 'Höchste Temperatur',
    password: 'Passwort',
    username: 'Benutzername',
    room: 'Raum',
    heatSource: 'Wärmequelle',
    reading: 'Messwert',
    trueValue: 'Wahrer Wert',
    uncertainty: 'Unsicherheit',
    readingUncertainty: 'Unsicherheit',
    referenceUncertainty: 'Unsicherheit',
    gatheredAt: 'Gesammelt am',
    accession: 'Akzessionsnummer',
    keep: 'Lagerung',
    confidence: 'Sicherheit',
    wanted: 'Gewünschte Zahl',
    sensor: 'Sensor',
    container: 'Behälter',
    quantity: 'Messgröße',
    watts: 'Leistung',
    placements: 'Einsätze',
    emptyVolts: 'Zellen leer bei (V)',
    pottedOn: 'Getopft',
    culled: 'Ausgesondert',
    'band.temperature.low': 'Nicht kälter als',
    'band.temperature.high': 'Nicht wärmer als',
    'band.light.high': 'Nicht heller als',
    'band.humidity.low': 'Nicht trockener als',
    limit: 'Grenze',
    deadband: 'Hysterese',
    onDelayMinutes: 'Verzögerung des Beginns',
    offDelayMinutes: 'Verzögerung des Endes',
    temperatureOffset: 'Korrektur der Temperatur',
    humidityOffset: 'Korrektur der Feuchte',
    temperatureError: 'Fehler der Temperatur',
    optimum: 'Beste Temperatur',
    firstDays: 'Erste Keimung nach (Tage)',
    giveUpDays: 'Gewöhnlich aufgegeben nach (Tage)',
    fraction: 'Gewöhnlich keimen (%)',
    rootCm: 'Länge der Keimwurzel',
    rootLengthsCm: 'Längen der Keimwurzeln',
    keepsDays: 'Keimfähig (Tage)',
    ungerminated: 'Ungekeimt',
    alive: 'Am Leben',
    days: 'Tage',
    day: 'Tag',
    groups: 'Behälter',
    containers: 'Behälter',
    sources: 'Wärmequellen',
    sowings: 'Aussaaten',
    species: 'Art',
    lot: 'Saatgutpartie',
    topics: 'Topics',
    reads: 'Topics zum Lesen',
    topic: 'Topic',
    current: 'Bisheriges Passwort',
    role: 'Rolle',
    temperature: 'Temperatur',
    humidity: 'Feuchte',
    kind: 'Behälterart',
    culledGerminated: 'Gekeimte ausgesondert',
  },
  /** By the rule of an input that was broken. */
  rules: {
    missing: (field) => `Es fehlt: ${field}.`,
    'too-long': (field, { most }) => `Zu lang: ${field}. Höchstens ${most} Zeichen.`,
    'too-short': (field, { least }) => `Zu kurz: ${field}. Mindestens ${least} Zeichen.`,
    bytes: (field, { most }) => `Zu lang: ${field}. Höchstens ${most} Zeichen; Umlaute zählen doppelt.`,
    length: (field, { most }) => `Bitte prüfen: ${field}. Nötig sind 1 bis ${most} Zeichen.`,
    characters: (field, { allowed, most }) =>
      allowed
        ? `Bitte prüfen: ${field}. Erlaubt sind 1 bis ${most} dieser Zeichen: ${allowed}`
        : `Bitte prüfen: ${field}. Darin sind Zeichen, die sich nicht anzeigen lassen.`,
    whole: (field, { least, most }) =>
      most
        ? `Bitte prüfen: ${field}. Eine ganze Zahl von ${least} bis ${most}.`
        : `Bitte prüfen: ${field}. Eine ganze Zahl, mindestens ${least}.`,
    range: (field, { least, most }) =>
      most ? `Bitte prüfen: ${field}. Zwischen ${least} und ${most}.` : `Bitte prüfen: ${field}. Mindestens ${least}.`,
    above: (field, { least, most }) => `Bitte prüfen: ${field}. Über ${least}, höchstens ${most}.`,
    higher: (field, { value, of, than }) => `Bitte prüfen: ${field}. ${value} liegt nicht über ${than} (${of}).`,
    number: (field, { value }) => `Bitte prüfen: ${field}. Eine Zahl ist nötig, nicht „${value}“.`,
    choice: (field, { value, choices }) => `Bitte prüfen: ${field}. „${value}“ geht nicht, möglich sind: ${choices}.`,
    count: (field, { least, most }) =>
      least ? `Bitte prüfen: ${field}. Nötig sind ${least} bis ${most}.` : `Bitte prüfen: ${field}. Höchstens ${most}.`,
    instant: (field, { value }) => `Bitte prüfen: ${field}. Datum und Uhrzeit sind nötig, nicht „${value}“.`,
    future: (field, { now }) => `Bitte prüfen: ${field}. Das liegt in der Zukunft; jetzt ist es ${now}.`,
    'too-early': (field, { earliest }) => `Bitte prüfen: ${field}. Das liegt zu früh; frühestens ${earliest}.`,
    'readings-deleted': (field, { earliest }) =>
      `Bitte prüfen: ${field}. Die Messwerte vor ${earliest} sind gelöscht, also ändert sich an ihrer Auswertung nichts mehr.`,
    order: () => 'Das Ende darf nicht vor dem Beginn liegen.',
    after: () => 'Das Ende muss nach dem Beginn liegen.',
    span: (field, { days }) => `Die Zeit ist zu lang. Höchstens ${days} Tage.`,
    opening: (field, { minutes }) =>
      `Das Ende der Öffnung muss nach ihrem Beginn liegen, höchstens ${minutes} min später.`,
    taken: (field, { value }) =>
      `Schon vergeben: „${value}“. Einen anderen Namen wählen oder das Vorhandene entfernen.`,
    full: (field, { most }) => `Es gibt schon ${most} davon, mehr sind nicht möglich. Erst etwas entfernen.`,
    'not-found': (field, { value }) =>
      value ? `Nicht gefunden: „${value}“.` : 'Das gibt es nicht mehr, oder die Adresse ist falsch.',
    same: () => 'Beide sind gleich. Zwei verschiedene wählen.',
    'wrong-password': () => 'Das ist nicht das bisherige Passwort.',
    'wrong-login': () => 'Der Name oder das Passwort ist falsch.',
    wait: (field, { seconds }) => `Zu viele Versuche. In ${seconds} s noch einmal versuchen.`,
    'common-password': () => 'Dieses Passwort wird als Erstes erraten. Ein anderes wählen.',
    'last-owner': () => 'Mindestens eine Person muss alles dürfen.',
    topics: (field, { most }) =>
      `Bitte prüfen: ${field}. Nötig sind MQTT-Topics, + für eine Ebene, # am Ende für alle darunter, höchstens ${most} Zeichen.`,
    'set-elsewhere': (field) => `${field} steht in der Einstellungsdatei oder im Aufruf des Dienstes. Dort ändern.`,
    picture: () => 'Ein Bild muss JPEG oder PNG sein.',
    'not-heard': (field, { sensor }) =>
      `${sensor} hat sich noch nicht gemeldet. Den Sensor einschalten, oder die Zeit leer lassen.`,
    silent: (field, { sensor }) =>
      `${sensor} hat noch keinen Messwert gesendet. Erst einschalten, dann den Wert eintragen, den er anzeigt.`,
    'before-first': (field, { sensor, first }) =>
      `Das liegt vor dem ersten Messwert von ${sensor}. Frühestens ${first}.`,
    'not-placed': (field, { sensor }) => `${sensor} war zu dieser Zeit in keinem Behälter.`,
    'never-placed': (field, { sensor }) =>
      `${sensor} war bis zu dieser Zeit in keinem Behälter. Eine spätere Zeit wählen oder den anderen Sensor einfach einsetzen.`,
    placed: (field, { sensor, place, since }) =>
      `${sensor} ist schon ${place ? `in „${place}“` : 'im Raum'}, seit ${since}. Um das zu ändern, diesen Einsatz korrigieren.`,
    overlaps: (field, { sensor, place, from, until }) =>
      `Das überschneidet sich mit einem anderen Einsatz: ${sensor}, ${place ? `in „${place}“` : 'im Raum'} ab ${from}${until ? ` bis ${until}` : ''}. Eine andere Zeit wählen oder erst diesen Einsatz korrigieren.`,
    'same-reading': (field, { value, hours }) =>
      `Zwei Punkte binnen ${hours} h haben denselben Messwert, ${value}. Den zweiten Punkt bei einem anderen wahren Wert aufnehmen oder den ersten entfernen.`,
    'dark-first': (field, { hours }) =>
      `Zuerst einen Punkt im Dunkeln aufnehmen, im Abstand von höchstens ${hours} h; sonst zeigte der Sensor Licht, wo keines ist. Diesen Punkt als letzten entfernen.`,
    swapped: () =>
      'Der Messwert muss mit dem wahren Wert steigen. Prüfen, ob Messwert und wahrer Wert eines Punktes vertauscht sind.',
    gain: (field, { gain, least, most }) =>
      `Mit den anderen Punkten ergibt sich ein Faktor von ${gain}; erlaubt sind ${least} bis ${most}. Die Werte prüfen, die Punkte weiter auseinander wählen oder den Sensor ersetzen.`,
    'seeds-inside': (field, { sowing }) => `Darin liegen Samen der Aussaat ${sowing}. Zuerst die Samen umsetzen.`,
    'seeds-were-inside': (field, { sowing }) =>
      `Darin lagen Samen der Aussaat ${sowing}; ihre Wärme wird aus diesem Behälter berechnet.`,
    'species-of-lot': (field, { lot }) => `Zu dieser Art gehört die Saatgutpartie ${lot}.`,
    'before-gathering': (field, { sowing, sownAt, lot, gatheredAt }) =>
      `Die Aussaat ${sowing} (${sownAt}) läge vor dem Sammeln ihrer Saatgutpartie ${lot} (${gatheredAt}).`,
    'lot-too-small': (field, { lot, seeds, sown }) =>
      `Die Saatgutpartie ${lot} hat ${seeds} Samen, gesät wären aber ${sown}.`,
    'before-sowing': () => 'Das läge vor der Aussaat.',
    'no-group': (field, { group }) => `Eine Gruppe ${group} gibt es zu dieser Zeit nicht.`,
    'group-empty': (field, { group, since }) =>
      `Von der Gruppe ${group} liegt seit ${since} nichts mehr in einem Behälter.`,
    'too-few-seeds': (field, { group, stage, wanted, available }) =>
      `So viele ${stage} hat die Gruppe ${group} zu dieser Zeit nicht: ${wanted} eingetragen, ${available} vorhanden.`,
    'group-lies-in': (field, { group, place }) =>
      `Die Gruppe ${group} liegt zu dieser Zeit in einem anderen Behälter, ${place}. Die Samen dorthin legen oder eine andere Gruppe wählen.`,
    'already-there': (field, { group, place }) => `Die Samen der Gruppe ${group} liegen schon in ${place}.`,
    'no-seeds': () => 'So würden keine Samen umgesetzt. Eintragen, wie viele es sind.',
    'corrected-already': () =>
      'Dieser Eintrag wurde inzwischen korrigiert oder zurückgezogen. Die Seite neu laden und den neuen Eintrag korrigieren.',
    'seeds-needed': (field, { most }) =>
      `Dafür wären mehr als ${most} Samen nötig. Weniger Sämlinge oder weniger Sicherheit verlangen.`,
    'value-of-method': (field, { value }) => `Bitte prüfen: ${field}. Mit diesem Verfahren sind es ${value}.`,
    role: (field, { needed, role }) =>
      `Dazu reichen die Rechte nicht: nötig ist „${needed}“, vorhanden „${role}“. Jemanden fragen, der alles darf.`,
    'signed-out': () => 'Die Anmeldung gilt nicht mehr. Bitte neu anmelden.',
    'no-login': () => 'Dieser Dienst verlangt keine Anmeldung. Die Einstellung „login“ schaltet sie ein.',
    busy: () => 'Der Dienst ist damit schon beschäftigt. In einigen Sekunden noch einmal versuchen.',
    'pages-open': (field, { most }) => `Es sind schon ${most} Seiten mit laufenden Werten offen. Erst eine schließen.`,
    'not-csv': () => 'Das ist keine Tabelle in CSV. Sie neu exportieren oder als CSV speichern.',
    'no-header': (field, { choices }) => `Die erste Zeile muss die Spalten nennen: ${choices}.`,
    'unknown-column': (field, { value, choices }) => `Eine Spalte „${value}“ gibt es nicht. Möglich sind: ${choices}.`,
    'column-twice': () => 'Eine Spalte ist zweimal genannt.',
    cells: (field, { cells, columns }) =>
      `Diese Zeile hat ${cells} Zellen, die erste Zeile nennt aber ${columns} Spalten.`,
    'too-many-rows': (field, { most }) => `Die Tabelle hat mehr als ${most} Zeilen. In Teilen einlesen.`,
    uuid: (field, { value }) => `Bitte prüfen: ${field}. Eine UUID ist nötig, nicht „${value}“.`,
    differs: (field, { value }) => `„${value}“ ist schon da, mit anderem Inhalt.`,
    'no-zip': () => 'Das ist keine Zip-Datei mit Tabellen wie lots.csv.',
    'zip-damaged': () => 'Die Zip-Datei ist beschädigt. Sie neu kopieren oder exportieren.',
    'zip-too-large': (field, { most }) => `Die Zip-Datei hat entpackt mehr als ${most} MB.`,
    'zip-other-file': (field, { file, choices }) =>
      `In der Zip-Datei liegt „${file}“, erlaubt sind aber nur Tabellen mit der Endung .csv: ${choices}.`,
    'zip-file-twice': (field, { file }) => `In der Zip-Datei liegt „${file}“ zweimal.`,
    encoding: (field, { file }) => `„${file}“ ist nicht in UTF-8. Die Datei in dieser Kodierung speichern.`,
    'file-too-large': (field, { most }) =>
      `Die Datei ist größer als ${most} GiB. Sie teilen oder den Befehl „import“ auf dem Rechner des Dienstes benutzen.`,
    'no-space': () => 'Auf der Festplatte des Dienstes ist zu wenig Platz für die Datei. Dort Platz schaffen.',
    running: () => 'Ein Einlesen läuft gerade. Das Ende abwarten oder es anhalten.',
    done: () => 'Diese Datei ist schon eingelesen.',
    'profile-name': (field, { most }) =>
      `Der Name eines Profils hat 1 bis ${most} Buchstaben, Ziffern, Leerzeichen und . _ ( ) - und beginnt mit einem Buchstaben oder einer Ziffer.`,
  },
  /** Before the rule that an earlier or later entry would break. */
  becauseOfThis: (entry, at) => `Wegen dieses Eintrags wäre ein anderer unmöglich: ${entry}, ${at}.`,
  entryKinds: {
    sown: 'die Aussaat',
    moved: 'das Umsetzen',
    checked: 'die Kontrolle',
    survival: 'die Zählung der Sämlinge',
    named: 'der Name',
    withdrawn: 'das Zurückziehen',
  },
  /** By the stage of seeds. */
  seedStages: {
    ungerminated: 'ungekeimte Samen',
    germinated: 'gekeimte Samen',
    alive: 'lebende Sämlinge',
  },
  /** By the role. */
  roleNames: { look: 'Ansehen', tend: 'Pflegen', own: 'Besitzen' },
  refusedUnits: { days: 'Tage', lux: 'lx', min: 'min' },

  // fault-words.js
  powerOnValue: 'Einschaltwert',
  sensorChipNotConnected: 'Sensorchip nicht verbunden',
  errorCode: 'Fehlercode',
  outOfRange: 'Außerhalb des Messbereichs',
  impossibleValue: 'Unmöglicher Wert',
  stuckValue: 'Wert steht still',
  spike: 'Ausreißer',
  jump: 'Sprung',
  saturatedHumidity: 'Feuchte gesättigt',
  saturatedLight: 'Licht gesättigt',
  condensation: 'Kondenswasser',
  twoSensorsDriftApart: 'Zwei Sensoren laufen auseinander',
  wrongClock: 'Uhr falsch',
  longerInterval: 'Längerer Abstand',
  fallingBattery: 'Batteriespannung fällt',
  counted: 'mitgerechnet',
  leftOutOfFigures: 'nicht mitgerechnet',
  partlyLeftOutOfFigures: 'teilweise nicht mitgerechnet',
  battery2: 'Batterie',
  allQuantities: 'Alle Messgrößen',
  refusedOnArrivalLeftOut: 'bei der Ankunft abgewiesen, nicht mitgerechnet',
  since: (from) => `seit ${from}`,
  to: (from, to) => `${from} bis ${to}`,
  exclude: 'Ausschließen',
  include: 'Mitrechnen',
  noSensorFaultsInThis: 'Keine Sensorfehler in diesem Zeitraum.',
  faultCount: { one: 'Fehler', other: 'Fehler' },
  allCountedInTheFigures: (counted) => `${counted}, alle mitgerechnet.`,
  itIs: 'er ist',
  allAre: 'sie sind',
  leftOutOfTheFigures: (counted, part) => `${counted}; ${part} nicht mitgerechnet.`,
  ofWord: (hours) => `${hours} `,
  faultyStretchCount: { one: 'fehlerhafter Abschnitt', other: 'fehlerhafte Abschnitte' },
  leftOutBecauseOfFaults: (join) => `Wegen Fehlern nicht mitgerechnet: ${join}.`,
  leftOutBecauseOfFaults2: (hours) => `${hours} wegen Fehlern nicht mitgerechnet`,
  faults: (join) => `Fehler: ${join}.`,
  in7DaysNewest: (counted, inSentence) => `${counted} in 7 Tagen, zuletzt: ${inSentence}`,

  // first-reading.js
  countFromFirstReading: (at) => `Ab seinem ersten Messwert zählen, ${at}`,
  countsFrom: (sensor, at) => `Messwerte von ${sensor} zählen für diesen Platz ab ${at}.`,

  // form.js
  pleaseLookAtThisAgain: 'Bitte noch einmal ansehen:',

  // format.js
  saturated: 'gesättigt',
  lux: (number) => `${number} lx`,
  luxH: (number) => `${number} lx·h`,
  ppm: (number) => `${number} ppm`,
  over999: 'über 99,9 %',
  under01: 'unter 0,1 %',

  // gauge.js
  limitsTo: (low, high) => `Grenzen ${low} bis ${high}`,
  temperatureNotKnown: (band) => `Temperatur unbekannt; ${band}.`,
  belowTheLowerLimit: 'unter der unteren Grenze',
  aboveTheUpperLimit: 'über der oberen Grenze',
  withinTheLimits: 'innerhalb der Grenzen',

  // health.js
  askingTheServiceHowIt: 'Zustand des Dienstes wird abgefragt …',
  theServiceWorksWithoutProblems: 'Der Dienst arbeitet ohne Störung.',
  aPartOfTheService: 'Ein Teil des Dienstes arbeitet nicht.',
  theServiceIsStarting: 'Der Dienst startet.',

  // latest-words.js
  readingCount: { one: 'Messwert', other: 'Messwerte' },
  ofUncertainTime: (counted) => `${counted} mit unsicherer Zeit`,
  noValuesYet: 'noch keine Werte',

  // limit-words.js
  justNowAnAlertFollows: (title, place) => `${title}, gerade eben: ${place}. Bleibt es so, folgt eine Warnung.`,
  forWord3: (duration) => `, seit ${dative(duration)}`,

  // next-step.js
  noContainerYet: 'Es gibt noch keinen Behälter.',
  makeAContainer: 'Im Regal einen Behälter anlegen',

  // open-count.js
  open2: (size) => ` (${size} offen)`,

  // page.js
  live: 'Live',
  connecting: 'Verbindet',
  notLive: 'Nicht live',
  theServiceDoesNotAnswer2: 'Der Dienst antwortet nicht.',
  partlyKept: (since) =>
    `Ein Teil dieser Seite ist von ${since} und war auf diesem Gerät gespeichert: Der Dienst war dafür nicht erreichbar. Neuer Versuch von selbst.`,
  notLiveSinceWhatYou: (downSince, reason) =>
    `Nicht live seit ${downSince}. ${reason} Die Anzeige kann veraltet sein; an jeder Zahl steht ihr Alter. Neuer Versuch von selbst.`,

  // quantities.js
  temperature: 'Temperatur',
  neverMeasured: 'nie gemessen',
  humidity: 'Feuchte',
  notMeasured2: 'nicht gemessen',
  light: 'Licht',
  co2: 'CO₂',
  co22: 'CO₂ ',
  medium: 'Substrat',
  medium2: 'Substrat ',

  // remedies.js
  compareTopicAndPayloadWith: 'Topic und Inhalt mit dem Beispiel in Schritt 1 der Anleitung im Regal vergleichen.',
  useTheNamesTemperatureHumidity:
    'Die Namen temperature, humidity, light, co2, mediumMoisture und battery verwenden, mit bloßen Zahlen in °C, %, lx, ppm, % und V.',
  publishToTheRootTopic:
    'An das Wurzel-Topic, einen Schrägstrich und den Namen des Sensors senden. Namen haben 1 bis 64 Buchstaben, Ziffern, _ oder -.',
  publishBelowTheRootTopic: 'Unter dem Wurzel-Topic senden oder eine Zuordnungsregel für dieses Topic anlegen.',
  publishToATopicThat:
    'An ein Topic senden, das dieses Konto benutzen darf, oder seine Rechte in den Einstellungen ändern.',
  letTheDeviceSendOnly: 'Das Gerät nur senden lassen, wenn es gemessen hat.',
  sendFewerReadingsInOne: 'Weniger Messwerte in einer Nachricht senden.',
  sendPlainTextInUtf: 'Reinen Text in UTF-8 senden.',
  sendOneCompleteJsonObject:
    'Ein vollständiges JSON-Objekt senden. Ist der Inhalt abgeschnitten, den Nachrichtenpuffer des Geräts vergrößern.',
  sendPlainNumbersWithA: 'Bloße Zahlen mit Dezimalpunkt senden, ohne Einheit.',
  checkTheSensorsWiringAnd:
    'Verdrahtung und Einheit des Sensors prüfen. Ein loser Draht liest sich oft als 85 °C oder \u2212127 °C.',
  setTheDevicesClockOr: 'Die Uhr des Geräts stellen. Oder „age“ statt „at“ senden, die Sekunden seit der Messung.',
  publishWithoutTheRetainFlag:
    'Ohne das Flag „retain“ senden. Der Broker sendet eine behaltene Nachricht später noch einmal, als wäre sie neu.',
  setTheClockOfThe: 'Die Uhr des Rechners stellen, auf dem der Dienst läuft.',
  sendTheMinutesFrom0: 'Die Minuten von 0 bis 240 als bloße Zahl senden, oder einen leeren Inhalt für 10 Minuten.',
  removeCountersAndTimesFrom: 'Zähler und Zeiten aus den Sensornamen nehmen, oder den Sensor in einen Behälter setzen.',
  checkTheClockAndThe: 'Uhr und Sendeabstand des Geräts prüfen.',

  // sensor-place.js
  withoutAPlace: 'ohne Platz',
  outsideInTheRoom: 'in der Raumluft',
  inWord: (name) => `in ${name}`,

  // text.js
  and: (join, at) => `${join} und ${at}`,
  titleInSentence: (title) => title,

  // tile.js
  last: (show) => `zuletzt ${show}, `,

  // time-format.js
  justNow: 'gerade eben',
  sAgo: (part) => `vor ${part} s`,
  ago: (ms) => `vor ${dative(ms)}`,
  today: (text) => `heute ${text}`,
  seconds: (n) => `${n} s`,
  minutes: (n) => `${n} min`,
  hours: (n) => `${n} h`,
  days: (n) => `${n} ${n === 1 ? 'Tag' : 'Tage'}`,
  inTime: (ms) => `in ${dative(ms)}`,

  // trouble.js
  tryingAgainByItself: 'Neuer Versuch von selbst.',

  // unit-switch.js
  fahrenheitChangeToCelsius: 'Fahrenheit; auf Celsius wechseln',
  celsiusChangeToFahrenheit: 'Celsius; auf Fahrenheit wechseln',
  temperaturesIn: (part) => `Temperaturen in ${part}`,

  // visitor.js
  noLoginEveryoneWhoReaches:
    'Ohne Anmeldung: Wer diese Adresse erreicht, kann alles ändern, außer ein Proxy verlangt eine Anmeldung. Die Einstellung „login“ ist „never“.',
  people: 'Personen',
  account: 'Konto',
  signOut: 'Abmelden',
  entryCount: { one: 'Eintrag', other: 'Einträge' },
  sendOrDiscardFirst: (counted) =>
    `Dieses Gerät muss noch ${counted} senden. Auf der Seite Zählbuch senden oder verwerfen, dann abmelden.`,
  stillSignedIn:
    'Der Dienst antwortet nicht, die Anmeldung besteht also noch. Was auf diesem Gerät gespeichert war, ist gelöscht; noch einmal abmelden, sobald der Dienst antwortet.',
  signedInAs: (name) => `Angemeldet als ${name}`,
  signIn: 'Anmelden',
  youAreSignedOut: 'Abgemeldet.',

  // container-fields.js
  name: 'Name',
  asWrittenOnItFor: 'Wie darauf geschrieben, zum Beispiel „Glas 3, Weide“.',
  kind: 'Behälterart',
  limitsYouGetAnAlert: 'Grenzen: außerhalb wird gewarnt',
  notColderThan: 'Nicht kälter als',
  notHotterThan: 'Nicht wärmer als',
  notBrighterThanLux: 'Nicht heller als (lx)',
  darkIs0ASensor: 'Dunkel ist 0; mancher Sensor zeigt bei völliger Dunkelheit 1.',
  notDrierThan: 'Nicht trockener als (%)',
  humidityClosedAndMoistIs: 'Luftfeuchte. Geschlossen und feucht ist nahe 100.',
  countingHeat: 'Wärmesumme',
  baseTemperature: 'Basistemperatur',
  belowThisSeedsGainNothing: 'Darunter zählt keine Wärme.',
  ceilingTemperature: 'Obergrenze der Temperatur',
  aboveItHeatCountsAs: 'Darüber zählt Wärme so, als wäre es genau so warm. Leer: keine Obergrenze.',
  heatSource: 'Wärmequelle',
  heatMat: 'Heizmatte',
  warmCloset: 'Warmer Schrank',
  containersWithTheSameWords:
    'Behälter mit demselben Eintrag gelten als von derselben Quelle gewärmt. Leer: Nichts wärmt ihn.',
  mainsNearWater: 'Netzspannung nahe am Wasser. ',
  putMatThermostatAndPlugs:
    'Matte, Thermostat und Stecker über einen Fehlerstrom-Schutzschalter (FI) anschließen. So hoch anbringen, dass verschüttetes Wasser sie nicht erreicht; am Kabel eine Tropfschlaufe lassen. Örtliche Vorschriften befolgen; feste Leitungen sind Sache der Elektrofachkraft. Die Matte schaltet der Thermostat, nicht dieser Dienst.',

  // container-form.js
  aNumberIsMissing: (title) => `${title}: eine Zahl fehlt.`,
  isNotANumber: (title, part) => `${title}: „${part}“ ist keine Zahl.`,
  fromTo: (title, min, max) => `${title}: von ${min} bis ${max}.`,
  nameGiveTheContainerA: 'Name: dem Behälter einen Namen geben.',
  notBrighterThan: 'Nicht heller als',
  notDrierThan2: 'Nicht trockener als',
  notHotterThanMustBe: '„Nicht wärmer als“ muss über „Nicht kälter als“ liegen.',
  theCeilingMustBeAbove: 'Die Obergrenze muss über der Basis liegen.',
  roomOrBench: 'Raum oder Tisch',
  whereItStands: 'Wo er steht. Behälter mit demselben Eintrag werden zusammen gezeigt.',

  // card.js
  placeASensor: 'Einen Sensor einsetzen',
  heatSoFar: 'Wärmesumme',
  n24HAgo: 'vor 24 h',
  now2: 'jetzt',
  noHeatSourceNamed: 'keine Wärmequelle genannt',
  noReadingsToAddUp: 'noch keine Messwerte zum Summieren',
  countsFromTheNext: 'zählt ab dem nächsten Messwert',
  temperatureOverThePast24: (words) => `Temperatur der letzten 24 Stunden: ${words}.`,
  wasInOrder: 'War in Ordnung',
  inOrderWhenLastHeard: 'In Ordnung, als zuletzt etwas kam; die Seite ist nicht live.',

  // zone.js, zone-line.js
  useTheZoneOfThisDevice: (zone) => `Zeitzone dieses Geräts verwenden: ${zone}`,
  useTheZoneOfTheService: (zone) => `Zeitzone des Dienstes verwenden: ${zone}`,
  timesAsInZone: (zone) => `Zeiten in der Zone ${zone}.`,
  inZone: (zone) => `Zeitzone ${zone}.`,

  // bench-words.js
  aSensorOfWithOne: (part, part2) => `einen Sensor von ${part} mit einem von ${part2}`,
  allPairs: 'Alle',
  butTheirSensorsMayBe: (difference, sensorError, unit) =>
    `${difference}, aber die Sensoren können um so viel falsch messen (±${sensorError} ${unit}). `,
  chanceAloneDoesThatIn: (counts, one) => `${counts} kommt das durch Zufall allein in ${one} von 100 Fällen vor.`,
  each: 'beiden',
  gaveMoreThan: (more, heat, unit, less) => `${more} gab ${heat} ${unit} mehr als ${less}`,
  hADay: (unitName) => `${unitName}·h je Tag`,
  itCanBeDueTo: (counts, sides) =>
    `${counts} kann es an den Behältern liegen und nicht an der Wärmequelle: bei ${sides} einen Behälter dazunehmen.`,
  noClearDifferenceInHeat: (part, part2, low, high, unit) =>
    `Kein klarer Unterschied der Wärme zwischen ${part} und ${part2}: wahrscheinlich von ${low} bis ${high} ${unit}. `,
  nonePairs: 'Keine',
  pairsDiffer: (shown, pairs, isOne) =>
    `${shown} von ${pairs} Paaren ${isOne ? 'unterscheidet' : 'unterscheiden'} sich deutlich in der Wärme. Etwa jedes zwanzigste Paar täte das durch Zufall allein.`,
  swapAndMeasureAgain: (part) => `Zum Prüfen ${part} tauschen und noch einmal messen.`,
  thatCanBeDueTo: (difference, sides) =>
    `${difference}. Das kann an diesen Behältern liegen und nicht an der Wärmequelle: bei ${sides} einen Behälter dazunehmen.`,
  thatCanStillBeChance: (counts, sides) =>
    `${counts} kann das noch Zufall sein: bei ${sides} einen Behälter dazunehmen.`,
  theErrorOfTheirSensors: (sensorError, unit) =>
    `Der Fehler der Sensoren kann einen Unterschied von bis zu ${sensorError} ${unit} verbergen.`,
  theSensorOfWithThat: (part, part2) => `den Sensor von ${part} mit dem von ${part2}`,
  tooFewHours: (first, second, hours, days) =>
    `Zu wenige Stunden, um ${first} und ${second} zu vergleichen: ${hours} wurden in beiden gemessen, mindestens ${days} Tage sind nötig.`,
  withAndContainers: (part, part2) => ` Bei ${part} und ${part2} Behältern`,
};
