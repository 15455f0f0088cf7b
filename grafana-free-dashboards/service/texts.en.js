// The English texts of this page.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    service: 'Service',
    theProgramOnTheComputer:
      'The program that receives the readings: the state of each part, and what arrived since its start. <a href="/docs/operation.html">Operation</a>',
    askingTheService: 'Asking the service …',
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

  // words.js
  works: 'works',
  doesNotWork: 'does not work',
  isStarting: 'is starting',
  parts: {
    backup: 'Backup',
    broker: 'Broker',
    clients: 'Clients',
    clock: 'Clock',
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
