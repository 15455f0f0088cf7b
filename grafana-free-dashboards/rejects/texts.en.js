// The English texts of this page.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    notUnderstood: 'Not understood',
    messagesNotUnderstood: 'Messages not understood',
    theseMessagesArrivedButHold:
      'These messages arrived, but hold no reading that the service understands. Other messages are not affected. <a href="/docs/sensors.html">What sensors send</a>',
    readTheseMessagesWithA: 'Read these messages with a mapping rule',
    askingTheService: 'Asking the service …',
  },

  // rejects.js
  nothingSoFarEveryMessage: 'Nothing so far: every message was understood.',
  messageCount: { one: 'message', other: 'messages' },
  inAll: (counted) => `${counted} in all`,
  theNewestAreKept: (kept) => `the newest ${kept} are kept`,
  theNewestAreShown: (shown) => `the newest ${shown} are shown`,
  timesAsIn: (join, browserZone) => `${join}. Times are in the zone ${browserZone}.`,
  noTopic: '(no topic)',
  whatToDo: 'What to do: ',
  payload: 'Payload',
  empty: '(empty)',
  notKept: '(not kept)',
  readItWithARule: 'Read it with a rule',
};
