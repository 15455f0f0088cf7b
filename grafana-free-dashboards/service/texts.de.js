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
  partsThoseThatDoNot: 'Teile; die nicht arbeitenden zuerst. Die Einzelheiten sind englisch, wie im Protokoll.',
  part: 'Teil',
  state: 'Zustand',
  details: 'Einzelheiten',
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
  /** What it means that a part does not work, and what to do. */
  partsDown: {
    backup:
      'Es gibt keine neue Sicherung. Fällt die Festplatte aus, ist alles nach der letzten verloren. Beheben, was die Einzelheiten nennen.',
    broker:
      'Keine Nachricht eines Sensors kommt an. Prüfen, ob der Broker läuft und ob Adresse und Anmeldung in den Einstellungen stimmen.',
    clock:
      'Der Uhr dieses Rechners ist nicht zu trauen: Zeiten von Messwerten und Warnungen können falsch sein. Die Uhr stellen und einem Zeitserver folgen lassen.',
    counts:
      'Die Zahlen der Nachrichten gehen nicht auf. Das ist ein Fehler im Programm. Bitte mit den Einzelheiten melden.',
    disk: 'Die Festplatte ist fast voll. Ist sie voll, wird kein Messwert mehr gespeichert. Platz schaffen oder eine größere nehmen.',
    heartbeat:
      'Wer von außen prüft, ob dieser Dienst lebt, bekommt kein Lebenszeichen. Die Adresse in den Einstellungen und das Netz prüfen.',
    notices:
      'Meldungen kommen nicht an, oder eine kam nicht an. Selbst nach den Warnungen sehen und auf der Seite Einstellungen eine Testmeldung senden.',
    readings:
      'Neue Messwerte werden gerade nicht gespeichert. Sie warten, bis es wieder geht. Prüfen, ob die Datenbank läuft und ihre Festplatte Platz hat.',
    records:
      'Behälter, Aussaaten und Kontrollen lassen sich gerade weder lesen noch speichern. Zählungen solange auf Papier schreiben. Prüfen, ob die Datenbank läuft und ihre Festplatte Platz hat.',
    sensors:
      'So viele neue Sensornamen kamen an, dass weitere abgewiesen werden. Auf der Seite Sensoren prüfen, ob sie falsch geschrieben sind; stimmen sie, die Grenze anheben.',
    tls: 'Mit dem Zertifikat stimmt etwas nicht, oder es läuft bald ab. Sensoren und Browser weisen den Dienst dann ab. Es erneuern.',
    topics: 'So viele verschiedene Topics kamen an, dass neue abgewiesen werden. Prüfen, welches Gerät sie erfindet.',
  },
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
