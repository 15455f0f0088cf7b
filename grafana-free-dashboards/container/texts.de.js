// The German texts of this page.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    container: 'Behälter',
    now: 'Jetzt',
    stretchOfTimeShown: 'Gezeigter Zeitraum',
    askingTheService: 'Der Dienst wird gefragt …',
    needsAttention: 'Braucht Aufmerksamkeit',
    didYouOpenIt: 'War das eine Öffnung?',
    course: 'Verlauf',
    whatTheChartsMark: 'Was die Diagramme markieren',
    compareWithOthers: 'Mit anderen vergleichen',
    print: 'Drucken',
    faults: 'Fehler',
    limits: 'Grenzen',
    openingsAndOtherLight: 'Öffnungen und anderes Licht',
    excursions: 'Abweichungen',
    heatByDay: 'Wärme nach Tagen',
    daysWithoutSensors: 'Tage ohne Sensoren',
    sensorsInside: 'Sensoren darin',
    settings: 'Einstellungen',
  },

  // alert-rules.js
  changeWhenAlertsAreRaised: 'Ändern, wann gewarnt wird',
  anEmptyFieldMeansThe:
    'In einem leeren Feld gilt die Vorgabe, grau gezeigt. Die Grenzen für Temperatur, Feuchte und Licht stehen oben.',
  keepTheseRules: 'Regeln speichern',
  kept: 'Gespeichert.',

  // charts.js
  room: 'Raumluft',
  lettersAboveTheChartsC:
    'Über den Diagrammen: C zu kalt, H zu warm, D zu trocken, O Öffnung; Lichteinfall: S Tageslicht (Sonne), L Lampe, X anderes Licht; F Sensorfehler, E nicht mitgerechneter Fehler; ✓ Kontrolle, ↓ Sensor eingesetzt, ↑ Sensor herausgenommen, ± Kalibrierung. Leere Abschnitte sind Lücken: es kam nichts.',

  // container.js
  notFoundTepidarium: 'Nicht gefunden · Tepidarium',
  noContainerWasNamed: 'Kein Behälter genannt.',
  thereIsNoContainerHere: (id) => `Einen Behälter „${id}“ gibt es hier nicht.`,
  itMayHaveBeenRemoved: 'Vielleicht wurde er entfernt, oder der Link ist vertippt. ',
  backToTheShelf: 'Zurück zum Regal',

  // extremes-words.js
  forTimeBeforeTheSensors:
    'Für die Zeit vor den Sensoren: tiefste und höchste Temperatur jedes Tages eingeben. Die Wärme wird geschätzt und nur hier gezeigt.',
  dayCount: { one: 'Tag', other: 'Tagen' },
  aboutInWithoutReadingsAn: (unmeasured, counted) =>
    `Etwa ${unmeasured} an ${counted} ohne Messwerte: eine Schätzung, nicht Teil der „Wärmesumme“.`,
  everyDayEnteredWasMeasured: 'Jeder eingegebene Tag ist auch gemessen.',
  withBoth: (counted) => `${counted} mit Eingabe und Messwerten`,
  onTheEstimateEqualsThe: (over) => ` An ${over} ist die Schätzung gleich der gemessenen Wärme.`,
  tooHigh: 'zu hoch',
  tooLow: 'zu niedrig',
  onTheEstimateIsA: (over, degreeHours, part) =>
    ` An ${over} ist die Schätzung im Mittel um ${degreeHours} je Tag ${part}.`,
  enterANumberSuchAs: (title, number) => `${title}: eine Zahl eingeben, etwa ${number}.`,
  lowest: 'Tiefste',
  highest: 'Höchste',
  theLowestTemperatureIsAbove: 'Die tiefste Temperatur liegt über der höchsten. Beide prüfen.',
  dayChooseADate: 'Tag: ein Datum wählen.',

  // extremes.js
  enterDaysFromAWeather: 'Tage von einer Wetterstation oder einem Min-Max-Thermometer eingeben',
  day: 'Tag',
  lowest2: (unitName) => `Tiefste (${unitName})`,
  highest2: (unitName) => `Höchste (${unitName})`,
  enterADayAgainTo:
    'Zum Korrigieren den Tag noch einmal eingeben. Die Temperatur im Behälter oder nahe dabei verwenden.',
  keepThisDay: 'Tag speichern',
  kept2: (day) => `Gespeichert: ${day}.`,
  howIsThisWorkedOut: 'Wie wird das berechnet?',
  estimate: 'Schätzung',
  measured: 'Gemessen',
  estimateLessMeasured: 'Schätzung minus gemessen',
  estimatedWithTheSingleSine: (timeZone) => `Geschätzt mit dem Ein-Sinus-Verfahren; Tage wie in ${timeZone}.`,
  remove: (day) => `Entfernen: ${day}`,
  remove2: 'Entfernen',

  // faults.js
  showAll: (count) => `Alle ${count} zeigen`,

  // head.js
  shelf: '← Regal',
  label: 'Etikett',
  sinceFromOfReadings: (from, coveredHours) => `seit ${from}, aus ${coveredHours} mit Messwerten`,
  soBetweenAnd: (heat, lower, upper) => `${heat}, also zwischen ${lower} und ${upper}`,
  betweenAndAsTheSensor: (sensorLower, sensorUpper) =>
    `zwischen ${sensorLower} und ${sensorUpper}, weil der Sensor abweichen kann`,
  iAmOpeningIt: 'Ich öffne jetzt',
  itIsClosedAgain: 'Wieder geschlossen',
  aCheck: 'Eine Kontrolle',
  mould: 'Schimmel. ',
  openItWhereAirMoves:
    'Dort öffnen, wo Luft zieht, eine Maske tragen und sich nicht darüber beugen: Warme, feuchte Behälter können auf einmal viele Sporen abgeben. Hände waschen. Eine Matte ausschalten, bevor darauf etwas gegossen oder angehoben wird.',
  openUntilLightUntilThen: (until) =>
    `Offen bis ${until}: Licht bis dahin zählt als Öffnung, nicht als Lichteinfall. Erneutes Drücken gibt von da an zehn Minuten.`,
  pressBeforeYouOpenIt:
    'Vor dem Öffnen drücken. Licht in den nächsten 10 Minuten zählt dann als Öffnung, nicht als Lichteinfall.',
  tenMinutesMore: 'Zehn Minuten mehr',

  // light-words.js
  lightOpening: 'Eine Öffnung zur Kontrolle: nichts zu tun.',
  quarters: {
    north: 'Norden',
    'north-east': 'Nordosten',
    east: 'Osten',
    'south-east': 'Südosten',
    south: 'Süden',
    'south-west': 'Südwesten',
    west: 'Westen',
    'north-west': 'Nordwesten',
  },
  sunBelow: (quarter) => `im ${quarter} unter dem Horizont`,
  sunAt: (quarter, degrees) => `im ${quarter}, ${degrees}° hoch`,
  lightDaylight: (where) =>
    `Tageslicht dringt ein (die Sonne stand ${where}). Die Naht oder den Rand des Deckels vom Fenster wegdrehen oder lichtdicht abdecken; die Schranktür geschlossen halten.`,
  lightLampAtNight: (degrees) =>
    `Nicht nur Tageslicht: Die Sonne stand ${degrees}° unter dem Horizont, also brannte eine Lampe. Prüfen, ob Schranktür und Deckel zur Lampe hin dicht schließen. Wurde der Behälter damals geöffnet, die Öffnung eintragen.`,
  lightLampByShape:
    'Wahrscheinlich eine Lampe: Das Licht war sofort voll da und blieb gleich. Herausfinden, welche Lampe brannte. Prüfen, ob Schranktür und Deckel dicht schließen. Wurde der Behälter damals geöffnet, die Öffnung eintragen.',
  lightUndecided:
    'Tageslicht oder eine Lampe; die Messwerte zeigen nicht, was. Prüfen, ob Deckel und Schranktür dicht schließen und die Naht nicht zum Fenster zeigt. Wurde der Behälter damals geöffnet, die Öffnung eintragen.',
  lightUnknownSite:
    'Prüfen, ob Deckel und Schranktür dicht schließen und die Naht nicht zum Fenster zeigt. Wurde der Behälter damals geöffnet, die Öffnung eintragen. Mit einem Standort in den Einstellungen lassen sich Tageslicht und Lampen unterscheiden.',

  // limits-table.js
  inside: '✓ innerhalb',
  outsideNotForLongYet: '~ außerhalb, noch nicht lange',
  outsideAlert: '! außerhalb, Warnung',
  notKnown: '? nicht bekannt',
  heard: '✓ gemessen',
  late: '~ verspätet',
  silentAlert: '! stumm, Warnung',
  notColderThan: 'Nicht kälter als',
  notHotterThan: 'Nicht wärmer als',
  notDrierThan: 'Nicht trockener als',
  notBrighterThan: 'Nicht heller als',
  heard2: 'Gemessen',
  sensorTo: (share, low, high) => `${share} (Sensor: ${low} bis ${high})`,
  limit: 'Grenze',
  now2: 'Jetzt',
  insideOfTheTimeHeard: 'Innerhalb, Anteil der gemessenen Zeit',
  outsideFor: 'Außerhalb',
  inTheStretchShownHeard: (coveredHours, gapHours, leftOut) =>
    `Im gezeigten Zeitraum ${coveredHours} gemessen, ${gapHours} fehlen. ${leftOut}`,
  nothingMeasured: (leftOut) =>
    `In diesem Zeitraum folgen keine zwei Messwerte aufeinander, also zählt keine Zeit als gemessen. ${leftOut}`,

  // rule-fields.js
  limit2: (unit) => `Grenze (${unit})`,
  deadband: (unit) => `Hysterese (${unit})`,
  onDelayMin: 'Verzögerung des Beginns (min)',
  offDelayMin: 'Verzögerung des Endes (min)',
  defaultWord: (priority) => `Vorgabe (${priority})`,
  priority: 'Dringlichkeit',
  raiseThisAlert: 'Warnen',
  yes: 'ja',
  no: 'nein',
  isNotANumber: (title, typed) => `${title}: „${typed}“ ist keine Zahl.`,
  high: 'hoch',
  medium: 'mittel',
  low: 'niedrig',

  // sensors.js
  theSheetOfASensor: 'Ein Tippen auf einen Sensor zeigt Batterie, Lücken, Korrektur und Einsätze.',
  placeOrMoveASensor: 'Sensor einsetzen oder umsetzen',
  noneUntilOneIsPlaced: 'Keine. Solange hier keiner eingesetzt ist, ist über diesen Behälter nichts bekannt.',
  heard3: 'zuletzt ',

  // settings.js
  keepTheseSettings: 'Einstellungen speichern',
  keptAllFiguresFollowAlso: 'Gespeichert. Alle Auswertungen werden neu berechnet, auch die vergangenen.',
  changeNameBandOrHow: 'Name, Grenzen oder Wärmesumme ändern',
  yesRemoveIt: 'Ja, entfernen',
  removeThisContainer: 'Diesen Behälter entfernen',
  itLeavesTheShelfThe: 'Er verschwindet aus dem Regal. Die Messwerte bleiben bei ihren Sensoren.',

  // suggested.js
  yesThatWasMe: 'Ja, das war ich',
  no2: 'Nein',
  upTo: (peakLux) => `, bis ${peakLux}`,
  temperature2: (temperatureChange) => `Temperatur ${temperatureChange}`,
  humidity2: (humidityChange) => `Feuchte ${humidityChange}`,

  // tables.js
  opening: 'Öffnung',
  daylight: 'Tageslicht',
  lamp: 'Lampe',
  otherLight: 'Anderes Licht',
  noLightAboveWasSeen: (limit, light, light2) => `Kein Licht über ${limit} gesehen${light}.${light2}`,
  what: 'Was',
  start: 'Beginn',
  end: 'Ende',
  length: 'Dauer',
  brightest: 'Am hellsten',
  lightDose: 'Lichtdosis',
  temperature3: 'Temperatur',
  humidity3: 'Feuchte',
  whatToDo: 'Was tun',
  lightLeakCount: { one: 'Lichteinfall', other: 'Lichteinfälle' },
  openingCount: { one: 'Öffnung', other: 'Öffnungen' },
  inAll: (counted, counted2, doseLuxHours, light, light2, zoneWords) =>
    `${counted}, ${counted2}; insgesamt ${doseLuxHours}${light}.${light2} ${zoneWords}`,
  temperatureAndHumidityStayed: (band) =>
    `Temperatur und Feuchte blieben in ihren Grenzen, solange gemessen wurde${band}.`,
  duringAnOpening: ', während einer Öffnung',
  worst: 'Äußerster Wert',
  worstAt: 'Wann',
  degreeHoursLost: 'Verlorene Gradstunden',
  excursionCount: { one: 'Abweichung', other: 'Abweichungen' },
  noReadingsToAddUp2: 'Noch keine Messwerte zum Summieren.',
  degreeHours: 'Gradstunden',
  missing: 'Fehlt',
  none: 'keine',
  trueValueBetween: 'Wahrer Wert zwischen',
  and: (lower, upper) => `${lower} und ${upper}`,
  nothingMissing: 'nichts fehlt',
  noMoreThanAt: (ceiling) => `, höchstens wie bei ${ceiling}`,
  above: (base, part) => `Über ${base}${part}`,
  wholeTimeOfThisContainer: (above, zone, heat) =>
    `${above}. Gesamte Zeit dieses Behälters; Tage wie in ${zone}.${heat}`,
  withMissing: (gapHours) => `, ${gapHours} fehlen`,
  timesAsIn: (browserZone) => `Zeiten in der Zone ${browserZone}.`,
  notSeen: 'nicht gesehen',
};
