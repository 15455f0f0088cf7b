// The English texts of this page.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    service: 'Service',
    theProgramOnTheComputer:
      'The program that receives the readings: the state of each part, and what arrived since its start. <a href="/docs/operation.html">Operation</a>',
    askingTheService: 'Asking the service …',
    takeOvers: 'Take-overs',
  },

  // service.js
  partsThoseThatDoNot: 'Parts; those that do not work come first.',
  part: 'Part',
  state: 'State',
  details: 'Details',
  version: (version) => `Version ${version}.`,
  readingsSinceTheStartReceived: (received, stored, repeated, waiting) =>
    `Readings since the start: ${received} received, ${stored} stored, ${repeated} repeated, ${waiting} waiting. `,
  messageCount: { one: 'message', other: 'messages' },
  notUnderstood: (counted) => `${counted} not understood`,

  timesInAll: (counted) => `${counted} in all; the newest first.`,
  timeCount: { one: 'time', other: 'times' },
  noneSoFar: 'None so far.',
  when: 'When',
  worksSince: 'Works since',
  workedBefore: 'Worked before',
  why: 'Why',
  reasons: {
    ended: 'did not renew its lease: lost, stood still, or cut off from the database',
    stopped: 'was stopped',
    broker: 'had lost the broker',
  },

  // words.js
  worksAlone: (machine) => `${machine} works. No other machine waits to take over.`,
  worksAndWait: (machine, waiting) => `${machine} works. Waiting to take over: ${waiting}.`,
  withoutBroker: (machine) => `${machine} (does not reach the broker)`,
  works: 'works',
  doesNotWork: 'does not work',
  isStarting: 'is starting',
  /** What it means that a part does not work, and what to do. */
  partsDown: {
    backup:
      'There is no new backup. Should the disk fail, all that came after the last one is lost. Fix what the details name.',
    broker:
      'No message of a sensor comes in. See whether the broker runs, and whether its address and login in the settings are right.',
    clock:
      'The clock of this machine cannot be trusted: the times of readings and alerts may be wrong. Set it, and let it follow a time server.',
    counts:
      'The counts of messages do not add up. That is a mistake in the program: please report it with the details.',
    disk: 'The disk is nearly full. Once it is full, no more readings are stored. Make room, or use a larger disk.',
    heartbeat:
      'Whoever watches from outside whether this service lives gets no sign of it. See its address in the settings, and the network.',
    notices:
      'Notices do not reach you, or one did not. Look at Alerts yourself, and send a test notice on the page Settings.',
    readings:
      'New readings are not stored now. They wait until it works again. See whether the database runs, and whether its disk has room.',
    records:
      'Containers, sowings and checks can neither be read nor kept now. Write counts on paper meanwhile. See whether the database runs, and whether its disk has room.',
    sensors:
      'So many new names of sensors came in that further ones are refused. See on the page Sensors whether they are misspelt; if they are right, raise the limit.',
    tls: 'Something is wrong with the certificate, or it ends soon. Sensors and browsers refuse the service then. Renew it.',
    topics: 'So many different topics came in that new ones are refused. See which device makes them up.',
  },
  parts: {
    backup: 'Backup',
    broker: 'Broker',
    clients: 'Clients',
    clock: 'Clock',
    connections: 'Connections',
    counts: 'Counts',
    dataFolder: 'Data folder',
    disk: 'Disk',
    heartbeat: 'Heartbeat',
    login: 'Login',
    logins: 'Logins',
    notices: 'Notices',
    readings: 'Readings',
    records: 'Records',
    retention: 'Retention',
    sensorAccounts: 'Sensor accounts',
    sensors: 'Sensors',
    sessions: 'Sessions',
    times: 'Times',
    tls: 'TLS',
    topics: 'Topics',
  },
};
