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
