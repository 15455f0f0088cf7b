// The German texts of this page.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    service: 'Dienst',
    theProgramOnTheComputer:
      'Das Programm, das die Messwerte empfängt: der Zustand jedes Teils, und was seit dem Start ankam. <a href="/docs/operation.html">Betrieb</a>',
    askingTheService: 'Der Dienst wird gefragt …',
  },

  // service.js
  partsThoseThatDoNot: 'Teile; die nicht arbeitenden zuerst.',
  part: 'Teil',
  state: 'Zustand',
  details: 'Einzelheiten',
  version: (version) => `Version ${version}.`,
  readingsSinceTheStartReceived: (received, stored, repeated, waiting) =>
    `Messwerte seit dem Start: ${received} empfangen, ${stored} gespeichert, ${repeated} wiederholt, ${waiting} wartend. `,
  messageCount: { one: 'Nachricht', other: 'Nachrichten' },
  notUnderstood: (counted) => `${counted} nicht verstanden`,

  // words.js
  works: 'arbeitet',
  doesNotWork: 'arbeitet nicht',
  isStarting: 'startet',
  parts: {
    backup: 'Sicherung',
    broker: 'Broker',
    clients: 'Geräte',
    clock: 'Uhr',
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
