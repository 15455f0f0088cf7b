// The German texts of this page.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    sites: 'Standorte',
    theOtherNurseries:
      'Alle Standorte des Verbunds, alle 10 Sekunden befragt. Was gestört ist, steht zuerst. <a href="/docs/scale.html">Viele Rechner</a>',
    askingTheService: 'Der Dienst wird gefragt …',
  },

  // sites.js
  lookThere: 'Dort nachsehen',

  // words.js
  noOtherSites: 'In den Einstellungen dieses Dienstes steht kein anderer Standort (sites).',
  somethingIsWrongAt: (sites) => `Gestört: ${sites}.`,
  lookAt: (sites) => `Bei Gelegenheit nachsehen: ${sites}.`,
  notAskedYet: (sites) => `Noch nicht befragt: ${sites}.`,
  allSitesWork: 'Alle Standorte arbeiten.',
  statusWords: { up: 'Arbeitet.', attention: 'Achtung.', down: 'Gestört.', unknown: 'Unbekannt.' },
  oneAddressSilent: (detail) => `Seine Adresse antwortet nicht${detail}. Rechner und Netz dort prüfen.`,
  unreachable: (machines, detail) =>
    `Keine seiner ${machines} Adressen antwortet${detail}. Rechner und Netz dort prüfen.`,
  refused:
    'Er nimmt das Zugangstoken nicht an. Dort auf der Seite Personen ein neues anlegen und in siteTokens eintragen.',
  unreadable: (detail) =>
    `Seine Antwort ist nicht lesbar: ${detail}. Die Adresse prüfen, und ob die Version dort zu alt ist.`,
  nobodyWorks: 'Kein Rechner arbeitet dort; wer antwortet, wartet auf die Übernahme. Die Datenbank dort prüfen.',
  partIsDown: (part, detail) => `${part} arbeitet nicht. Wortlaut: „${detail}“`,
  recordsPart: 'Die Datenbank der Aufzeichnungen',
  readingsPart: 'Der Speicher der Messwerte',
  brokerPart: 'Die Verbindung zum Broker',
  onePart: 'Ein Teil',
  highAlerts: (counted) => `${counted} von hoher Dringlichkeit. Nach den Behältern sehen.`,
  alertCount: { one: 'aktive Warnung', other: 'aktive Warnungen' },
  diskFull: (time) =>
    `Die Festplatte ist bei diesem Zuwachs in ${time} voll. Platz schaffen, oder eine größere einbauen.`,
  nobodyWaits: 'Kein anderer Rechner wartet auf die Übernahme. Einen starten, bevor dieser ausfällt.',
  waitingWithoutBroker: 'Keiner der wartenden Rechner erreicht den Broker. Deren Netz prüfen.',
  notAsked: 'Er wurde noch nicht befragt.',
  notShown: 'Diese Seite kann seine Angaben nicht darstellen. Die Versionen vergleichen.',
  works: 'Dort arbeitet alles.',
  since: (time) => `Seit: ${time}.`,
  asOf: 'Letzte Antwort',
  worksOn: 'Arbeitet auf',
  lease: 'Zuständigkeit',
  renewed: (seconds, time) => `vor ${seconds} s bestätigt; besteht seit: ${time}`,
  noLease: 'ungeteilt: kein anderer Rechner nutzt diese Datenbank',
  waiting: 'Es warten',
  withoutBroker: (machine) => `${machine} (ohne Broker)`,
  nobody: 'keiner',
  noReading: 'keiner',
  noTakeOver: 'keine',
  readingsIn: 'Messwerte',
  perMinute: (readings) => `${readings} je Minute`,
  newestReading: 'Neuester Messwert',
  queue: 'Noch nicht gespeichert',
  broker: 'Broker',
  connected: 'verbunden',
  notConnected: 'nicht verbunden',
  disk: 'Festplatte',
  gibFree: (gib) => `${gib} GiB frei`,
  fullIn: (time) => `voll in ${time}`,
  lastBackup: 'Letzte Sicherung',
  backupElsewhere: 'mit den Werkzeugen von PostgreSQL',
  highAlertsTitle: 'Dringende Warnungen',
  takeOvers: 'Übernahmen',
  timesLast: (times, time) => `${times}, zuletzt: ${time}`,
};
