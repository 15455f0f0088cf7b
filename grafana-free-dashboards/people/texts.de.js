// The German texts of this page.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    people: 'Personen',
    askingTheService: 'Der Dienst wird gefragt …',
    yourPassword: 'Eigenes Passwort',
    current: 'Bisheriges',
    new8CharactersOrMore: 'Neues, mindestens 8 Zeichen',
    change: 'Ändern',
    signedIn: 'Angemeldet',
    nobodyIsSignedIn: 'Niemand ist angemeldet.',
    whoMayDoWhat: 'Wer darf was',
    addAPerson: 'Person hinzufügen',
    name: 'Name',
    role: 'Rolle',
    password8CharactersOrMore: 'Passwort, mindestens 8 Zeichen',
    add: 'Hinzufügen',
    tokens: 'Token',
    withATokenAProgram:
      'Mit einem Token benutzt ein Programm die API ohne Passwort. <a href="/docs/operation.html#login">Mehr</a>',
    thereIsNoToken: 'Es gibt kein Token.',
    makeAToken: 'Token anlegen',
    usedBy: 'Benutzt von',
    days: 'Tage',
    make: 'Anlegen',
  },

  // people.js
  people: 'Personen',
  account: 'Konto',
  yourPasswordIsChangedYour: 'Das Passwort ist geändert. Die anderen Sitzungen sind beendet.',
  canSignInNow: (name) => `${name} kann sich jetzt anmelden.`,
  copyTheTokenNowIt: 'Das Token jetzt kopieren. Es wird nur einmal gezeigt.',

  // rows.js
  end: 'Beenden',
  thisBrowser: 'Dieser Browser: ',
  remove: 'Entfernen',
  roleOf: (name) => `Rolle von ${name}`,
  remove2: (name) => `${name} entfernen`,
  newPasswordOf: (name) => `Neues Passwort von ${name}`,
  setPassword: 'Passwort setzen',
  thePasswordOfIsSet: (name) => `Das Passwort von ${name} ist gesetzt. Andere Sitzungen von ${name} sind beendet.`,
  newPassword: 'Neues Passwort',

  // words.js
  lookSeesEverything: 'Ansehen: sieht alles',
  tendAlsoRecordsWork: 'Pflegen: trägt auch Arbeiten ein',
  ownEverything: 'Besitzen: alles',
  unknownDevice: 'Unbekanntes Gerät',
  until: 'bis',
  ifNotUsedUntil: 'wenn unbenutzt, bis',
  lastUsed: (moment) => `zuletzt benutzt ${moment}`,
  ended: (ends) => `beendet ${ends}`,
  until2: (ends) => `bis ${ends}`,
  neverUsed: 'nie benutzt',
  noWrongPasswordInThe: 'Kein falsches Passwort in den letzten 24 Stunden.',
  anUnknownName: 'einen unbekannten Namen',
  wrongPasswordCount: { one: 'falsches Passwort', other: 'falsche Passwörter' },
  inThePast24Hours: (counted, whose, address, moment) =>
    `${counted} in den letzten 24 Stunden, zuletzt für ${whose} von ${address}, Zeit: ${moment}.`,
};
