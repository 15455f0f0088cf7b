// The German texts of this page. meanings.js has what each setting means.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    settings: 'Einstellungen',
    askingTheService: 'Der Dienst wird gefragt …',
    onlyAnOwner: 'Nur ein Besitzer darf die Einstellungen sehen.',
    email: 'Meldungen per E-Mail',
    emailLead: 'Gehen hinaus, wenn eine Warnung beginnt und wenn sie endet.',
    webhook: 'Meldungen an eine Web-Adresse',
    webhookLead: 'Jede Meldung als HTTP-Anfrage, für ein anderes Programm.',
    more: 'Mehr',
    allSettings: 'Alle Einstellungen',
    search: 'Suchen',
    show: 'Zeigen',
    noneFound: 'Keine Einstellung passt.',
  },

  // notices.js
  fields: {
    'notices.email.host': 'Mailserver',
    'notices.email.port': 'Port',
    'notices.email.tls': 'Verschlüsselung',
    'notices.email.user': 'Benutzername',
    'notices.email.password': 'Passwort',
    'notices.email.from': 'Von',
    'notices.email.to': 'An',
    'notices.email.escalateTo': 'An, wenn niemand bestätigt',
    'notices.webhook.url': 'Adresse',
    'notices.webhook.secret': 'Geheimnis',
  },
  keptIfEmpty: 'Gespeichert. Leer lassen, um es zu behalten.',
  severalWithCommas: 'Mehrere mit Komma trennen.',
  optional: 'Freiwillig.',
  sendATest: 'Testmeldung senden',
  save: 'Speichern',
  saved: 'Gespeichert. Gilt ab jetzt.',
  turnOff: 'Abschalten',
  turnedOff: 'Abgeschaltet.',
  setElsewhere: (place) =>
    `Gesetzt ${place}; dort ändern. Eine Testmeldung lässt sich auf der Seite Warnungen unter Meldungen senden.`,
  sending: 'Wird gesendet …',
  arrived: (target, words) => `${target}: angekommen (${words}).`,
  didNotArrive: (target, words) => `${target}: nicht angekommen. ${words}`,
  nothingToTry: 'Nichts zu testen. Zuerst die Felder ausfüllen.',

  // list.js
  change: 'Ändern',
  changeOf: (name) => `${name} ändern`,
  useDefault: 'Vorgabe nehmen',
  cancel: 'Abbrechen',

  // settings.js
  savedIn: (file) =>
    `Änderungen stehen in ${file}. Die Einstellungsdatei, die Umgebung und die Befehlszeile haben Vorrang.`,
  settingCount: { one: 'Einstellung', other: 'Einstellungen' },
  waiting: (counted, names) =>
    `${counted} gespeichert, aber erst nach dem nächsten Start des Dienstes in Gebrauch: ${names}.`,
  showAll: 'alle',
  showSet: 'mit eigenem Wert',
  showChangeable: 'die hier zu ändern sind',
  showWaiting: 'die auf den nächsten Start warten',

  // words.js
  groups: {
    notices: 'Meldungen',
    sensors: 'Sensoren und Messwerte',
    place: 'Ort und Zeit',
    storage: 'Speicher und Sicherungen',
    pages: 'Seiten und Anmeldung',
    broker: 'Broker',
  },
  hidden: 'gesetzt, wird nicht gezeigt',
  standard: (value) => `${value} (Vorgabe)`,
  onThisPage: 'auf dieser Seite',
  inTheFile: (file) => `in ${file}`,
  inASettingsFile: 'in der Einstellungsdatei',
  inTheEnvironment: (name) => `durch die Umgebungsvariable ${name}`,
  onTheCommandLine: 'auf der Befehlszeile',
  fileOnly: 'Nur in der Einstellungsdatei zu ändern.',
  isSet: (place) => `Gesetzt ${place}.`,
  isWaiting: 'Wartet auf den nächsten Start.',
};
