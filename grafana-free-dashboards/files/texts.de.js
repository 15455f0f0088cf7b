// The German texts of this page.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    files: 'Dateien',
    askingTheService: 'Der Dienst wird gefragt …',
    export: 'Ausgeben',
    savesReadingsAsAFile:
      'Speichert Messwerte als Datei. Das Einlesen liest sie wieder. <a href="/docs/export.html">Mehr</a>',
    readingsOf: 'Messwerte von',
    from: 'Von',
    toThatDayIncluded: 'Bis, dieser Tag eingeschlossen',
    format: 'Format',
    csv: 'CSV',
    lineProtocol: 'Line Protocol',
    values: 'Werte',
    raw: 'Roh',
    calibrated: 'Kalibriert',
    withoutDaysAllReadingsAre:
      'Ohne Tage werden alle Messwerte gespeichert. Rohe Werte sind die, die die Sensoren gesendet haben.',
    download: 'Herunterladen',
    import: 'Einlesen',
    readsFilesOfOtherLoggers:
      'Liest Dateien anderer Logger: Tabellen (CSV) und InfluxDB Line Protocol, bis 2 GiB. <a href="/docs/import.html">Mehr</a>',
    file: 'Datei',
    upload: 'Hochladen',
  },

  // export-address.js
  allSensors: 'Alle Sensoren',
  container: (name) => `Behälter ${name}`,
  room: 'Raum',
  sensor: (sensor) => `Sensor ${sensor}`,
  theLastDayIsBefore: 'Der letzte Tag liegt vor dem ersten. Einen späteren wählen.',

  // import-fields.js
  none: 'Keines',
  nameTheProfileFirst: 'Zuerst das Profil benennen.',
  theProfileIsSaved: (value) => `Das Profil ${value} ist gespeichert.`,
  chooseTheProfileFirst: 'Zuerst das Profil wählen.',
  profile: 'Profil',
  deleteProfile: 'Profil löschen',
  saveAs: 'Speichern als',
  keepsTheFieldsBelowUnder: 'Speichert die Felder unten unter diesem Namen. Ein Profil dieses Namens wird ersetzt.',
  saveProfile: 'Profil speichern',
  guess: 'Raten',
  dayFirst: 'Tag zuerst',
  monthFirst: 'Monat zuerst',
  yearFirst: 'Jahr zuerst',
  comma: 'Komma',
  point: 'Punkt',
  sensor2: 'Sensor',
  timeZone: 'Zeitzone',
  dateOrder: 'Reihenfolge des Datums',
  decimalSign: 'Dezimalzeichen',
  delimiter: 'Trennzeichen',
  semicolon: 'Semikolon',
  headerLine: 'Kopfzeile',
  encoding: 'Kodierung',
  columns: 'Spalten',
  oneColumnALineIts:
    'Eine Spalte je Zeile: ihre Nummer oder Überschrift, = und time, clock, sensor, ignore oder eine Größe mit Einheit und Sensor.',
  exampleOfAColumn: '2=temperature:F',

  // import-words.js
  notStarted: 'Nicht begonnen',
  running: 'Läuft',
  stopped: 'Angehalten',
  done: 'Fertig',
  failed: 'Fehlgeschlagen',
  readingCount: { one: 'Messwert', other: 'Messwerte' },
  stored: (counted) => `${counted} gespeichert`,
  thereAlready: (repeated) => `${repeated} schon da`,
  rowCount: { one: 'Zeile', other: 'Zeilen' },
  rejected: (counted) => `${counted} abgewiesen`,
  lineIsRejected: (line, rejected) => `Zeile ${line} ist abgewiesen: ${rejected}`,
  line: (line, sensor, at, join) => `Zeile ${line}: ${sensor}, ${at}, ${join}`,
  columnsIsNotAColumn: (trim) => `Spalten: „${trim}“ ist keine Spalte mit Bedeutung, etwa 2=temperature:F.`,

  // import.js
  chooseAFileFirst: 'Zuerst eine Datei wählen.',
  theFileIsLargerThan: 'Die Datei ist größer als 2 GiB. Den Befehl import verwenden oder die Datei teilen.',
  correctWhatIsGuessed: 'Geratenes korrigieren',
  preview: 'Vorschau',
  start: 'Beginnen',
  stop: 'Anhalten',
  remove: 'Entfernen',
  rejectedRows: 'Abgewiesene Zeilen',
  continue: 'Fortsetzen',
  firstRows: 'Erste Zeilen',
  guessed: 'Geraten',
};
