// The English texts of this page.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    sites: 'Sites',
    theOtherNurseries:
      'Each site of the network, asked every 10 seconds. What is wrong stands first. <a href="/docs/scale.html">Many machines</a>',
    askingTheService: 'Asking the service …',
  },

  // sites.js
  lookThere: 'Look there',

  // words.js
  noOtherSites: 'The settings of this service name no other site (sites).',
  somethingIsWrongAt: (sites) => `Something is wrong at ${sites}.`,
  lookAt: (sites) => `Look at ${sites} when there is time.`,
  notAskedYet: (sites) => `Not asked yet: ${sites}.`,
  allSitesWork: 'All sites work.',
  statusWords: { up: 'Works.', attention: 'Attention.', down: 'Trouble.', unknown: 'Unknown.' },
  oneAddressSilent: (detail) => `Its address does not answer${detail}. Check its machine and the network.`,
  unreachable: (machines, detail) =>
    `None of its ${machines} addresses answers${detail}. Check its machines and the network.`,
  refused: 'It refuses the access token. Make a new one there, on the page People, and put it into siteTokens.',
  unreadable: (detail) =>
    `Its answer cannot be read: ${detail}. Check its address, and whether its version is too old.`,
  nobodyWorks: 'No machine works there; those that answer wait to take over. Look at its database.',
  partIsDown: (part, detail) => `${part} does not work. Its words: “${detail}”`,
  recordsPart: 'The database of the records',
  readingsPart: 'The store of the readings',
  brokerPart: 'The connection to the broker',
  onePart: 'A part',
  highAlerts: (counted) => `${counted} of high priority. Look after the containers.`,
  alertCount: { one: 'active alert', other: 'active alerts' },
  diskFull: (time) => `Its disk is full in ${time} at this rate. Make room, or get a larger one.`,
  nobodyWaits: 'No other machine waits to take over. Start one before this one is lost.',
  waitingWithoutBroker: 'No machine that waits reaches the broker. Check their network.',
  notAsked: 'It was not asked yet.',
  notShown: 'This page cannot show what it says. Compare the versions.',
  works: 'Everything works there.',
  since: (time) => `Since ${time}.`,
  asOf: 'Last heard',
  worksOn: 'Works on',
  lease: 'Lease',
  renewed: (seconds, time) => `renewed ${seconds} s ago, held since ${time}`,
  noLease: 'none: it shares its database with no other machine',
  waiting: 'Waiting',
  withoutBroker: (machine) => `${machine} (without broker)`,
  nobody: 'none',
  noReading: 'none',
  noTakeOver: 'none',
  readingsIn: 'Readings in',
  perMinute: (readings) => `${readings} a minute`,
  newestReading: 'Newest reading',
  queue: 'Not stored yet',
  broker: 'Broker',
  connected: 'connected',
  notConnected: 'not connected',
  disk: 'Disk',
  gibFree: (gib) => `${gib} GiB free`,
  fullIn: (time) => `full in ${time}`,
  lastBackup: 'Last backup',
  backupElsewhere: 'by the tools of PostgreSQL',
  highAlertsTitle: 'High alerts',
  takeOvers: 'Take-overs',
  timesLast: (times, time) => `${times}, last ${time}`,
};
