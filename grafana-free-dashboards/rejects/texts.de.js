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
  nothingSoFarEveryMessage: 'Bisher nichts: Jede Nachricht wurde verstanden.',
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
  /** By the code of the reason. */
  reasons: {
    topic: 'Das Topic liegt unter dem Wurzel-Topic, ist aber nicht das eines Sensors.',
    'unmapped-topic': 'Das Topic liegt nicht unter dem Wurzel-Topic, und keine Zuordnungsregel passt.',
    'forbidden-topic': 'Das Konto darf an dieses Topic nicht senden.',
    empty: 'Die Nachricht ist leer.',
    'too-large': 'Die Nachricht ist zu lang.',
    encoding: 'Die Nachricht ist kein Text in UTF-8.',
    json: 'Die Nachricht ist kein vollständiges JSON.',
    'no-quantity': 'Keine bekannte Messgröße hat einen Wert.',
    'not-a-number': 'Ein Wert ist keine Zahl.',
    'out-of-range': 'Ein Wert liegt außerhalb dessen, was ein Sensor messen kann.',
    time: 'Die Zeit oder das Alter eines Messwerts ist nicht brauchbar.',
    retained: 'Der Broker hatte die Nachricht behalten, also ist ihr Alter unbekannt.',
    'service-clock': 'Die Uhr des Rechners mit dem Dienst ist nicht gestellt.',
    button: 'Die Nachricht eines Tasters ist nicht brauchbar.',
    'sensor-limit': 'Es gibt zu viele neue Sensornamen.',
    store: 'Der Speicher nimmt diesen Messwert nicht an.',
    other: 'Die Nachricht ist nicht brauchbar.',
  },
};
