// The German texts of this page.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    service: 'Dienst',
    theProgramOnTheComputer:
      'Das Programm, das die Messwerte empfängt: der Zustand jedes Teils, und was seit dem Start ankam. <a href="/docs/operation.html">Betrieb</a>',
    askingTheService: 'Der Dienst wird gefragt …',
    takeOvers: 'Übernahmen',
  },

  // service.js
  partsThoseThatDoNot: 'Teile; die nicht arbeitenden zuerst.',
  part: 'Teil',
  state: 'Zustand',
  details: 'Einzelheiten (englisch, wie im Log)',
  version: (version) => `Version ${version}.`,
  readingsSinceTheStartReceived: (received, stored, repeated, waiting) =>
    `Messwerte seit dem Start: ${received} empfangen, ${stored} gespeichert, ${repeated} wiederholt, ${waiting} wartend. `,
  messageCount: { one: 'Nachricht', other: 'Nachrichten' },
  notUnderstood: (counted) => `${counted} nicht verstanden`,

  timesInAll: (counted) => `Insgesamt ${counted}; die neueste zuerst.`,
  timeCount: { one: 'Übernahme', other: 'Übernahmen' },
  noneSoFar: 'Bisher keine.',
  when: 'Wann',
  worksSince: 'Arbeitet seitdem',
  workedBefore: 'Arbeitete vorher',
  why: 'Warum',
  reasons: {
    ended: 'hat sich nicht mehr als zuständig gemeldet: ausgefallen, angehalten oder von der Datenbank getrennt',
    stopped: 'wurde beendet',
    broker: 'hatte den Broker verloren',
  },

  // words.js
  worksAlone: (machine) => `${machine} arbeitet. Kein anderer Rechner wartet auf die Übernahme.`,
  worksAndWait: (machine, waiting) => `${machine} arbeitet. Auf die Übernahme warten: ${waiting}.`,
  withoutBroker: (machine) => `${machine} (erreicht den Broker nicht)`,
  works: 'arbeitet',
  doesNotWork: 'arbeitet nicht',
  isStarting: 'startet',
  parts: {
    backup: 'Sicherung',
    broker: 'Broker',
    clients: 'Geräte',
    clock: 'Uhr',
    connections: 'Verbindungen',
    counts: 'Zähler',
    dataFolder: 'Datenordner',
    disk: 'Festplatte',
    heartbeat: 'Lebenszeichen',
    login: 'Anmeldung',
    logins: 'Anmeldungen',
    notices: 'Meldungen',
    readings: 'Messwerte',
    records: 'Aufzeichnungen',
    retention: 'Aufbewahrung',
    sensorAccounts: 'Konten der Sensoren',
    sensors: 'Sensoren',
    sessions: 'Sitzungen',
    times: 'Zeiten',
    tls: 'TLS',
    topics: 'Topics',
  },
};
