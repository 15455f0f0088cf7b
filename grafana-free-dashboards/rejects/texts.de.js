// The German texts of this page.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    notUnderstood: 'Nicht verstanden',
    messagesNotUnderstood: 'Nicht verstandene Nachrichten',
    theseMessagesArrivedButHold:
      'Diese Nachrichten sind angekommen, enthalten aber keinen Messwert, den der Dienst versteht. Andere Nachrichten sind nicht betroffen. <a href="/docs/sensors.html">Was Sensoren senden</a>',
    readTheseMessagesWithA: 'Diese Nachrichten mit einer Zuordnungsregel lesen',
    askingTheService: 'Der Dienst wird gefragt …',
  },

  // rejects.js
  nothingSoFarEveryMessage: 'Bisher nichts: jede Nachricht wurde verstanden.',
  messageCount: { one: 'Nachricht', other: 'Nachrichten' },
  inAll: (counted) => `${counted} insgesamt`,
  theNewestAreKept: (kept) => `die neuesten ${kept} sind gespeichert`,
  theNewestAreShown: (shown) => `die neuesten ${shown} sind gezeigt`,
  timesAsIn: (join, browserZone) => `${join}. Zeiten in der Zone ${browserZone}.`,
  noTopic: '(kein Topic)',
  whatToDo: 'Was tun: ',
  payload: 'Inhalt',
  empty: '(leer)',
  notKept: '(nicht gespeichert)',
  readItWithARule: 'Mit einer Regel lesen',
};
