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
  /** By the code of the reason. */
  reasons: {
    topic: 'The topic is below the root topic, but is not the topic of a sensor.',
    'unmapped-topic': 'The topic is not below the root topic, and no mapping rule fits.',
    'forbidden-topic': 'The account may not publish to this topic.',
    empty: 'The message is empty.',
    'too-large': 'The message is too long.',
    encoding: 'The message is not text in UTF-8.',
    json: 'The message is not complete JSON.',
    'no-quantity': 'No known quantity has a value.',
    'not-a-number': 'A value is not a number.',
    'out-of-range': 'A value is outside of what a sensor can measure.',
    time: 'The time or age of a reading cannot be used.',
    retained: 'The broker had kept the message, so its age is unknown.',
    'service-clock': 'The clock of the computer with the service is not set.',
    button: 'The message of a button cannot be used.',
    'sensor-limit': 'There are too many new names of sensors.',
    store: 'The store does not take this reading.',
    other: 'The message cannot be used.',
  },
};
