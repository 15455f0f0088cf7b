// The English texts of this page. The service tells what each setting means; see meanings.js.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    settings: 'Settings',
    askingTheService: 'Asking the service …',
    onlyAnOwner: 'Only an owner may see the settings.',
    email: 'Notices by e-mail',
    emailLead: 'Sent when an alert begins and when it ends.',
    webhook: 'Notices to a web address',
    webhookLead: 'Each notice as an HTTP request, for another program.',
    more: 'More',
    allSettings: 'All settings',
    search: 'Search',
    show: 'Show',
    noneFound: 'No setting matches.',
  },

  // notices.js
  fields: {
    'notices.email.host': 'Mail server',
    'notices.email.port': 'Port',
    'notices.email.tls': 'Encryption',
    'notices.email.user': 'User name',
    'notices.email.password': 'Password',
    'notices.email.from': 'From',
    'notices.email.to': 'To',
    'notices.email.escalateTo': 'To, if nobody acknowledges',
    'notices.webhook.url': 'Address',
    'notices.webhook.secret': 'Secret',
  },
  keptIfEmpty: 'Stored. Leave empty to keep it.',
  severalWithCommas: 'Separate several with commas.',
  optional: 'Optional.',
  sendATest: 'Send a test',
  save: 'Save',
  saved: 'Saved. It counts from now on.',
  turnOff: 'Turn off',
  turnedOff: 'Turned off.',
  setElsewhere: (place) => `Set ${place}; change it there. A test can be sent on the page Alerts, under Notices.`,
  sending: 'Sending …',
  arrived: (target, words) => `${target}: arrived (${words}).`,
  didNotArrive: (target, words) => `${target}: did not arrive. ${words}`,
  nothingToTry: 'Nothing to try. Fill in the fields first.',

  // list.js
  change: 'Change',
  changeOf: (name) => `Change ${name}`,
  useDefault: 'Use the default',
  cancel: 'Cancel',

  // settings.js
  savedIn: (file) =>
    `Changes are saved in ${file}. The settings file, the environment and the command line win over them.`,
  settingCount: { one: 'setting', other: 'settings' },
  waiting: (counted, names) => `${counted} saved, but not in use before the next start of the service: ${names}.`,
  showAll: 'all',
  showSet: 'with a value of their own',
  showChangeable: 'that can be changed here',
  showWaiting: 'that wait for the next start',

  // words.js
  groups: {
    notices: 'Notices',
    sensors: 'Sensors and readings',
    place: 'Place and time',
    storage: 'Storage and backups',
    pages: 'Pages and login',
    broker: 'Broker',
  },
  hidden: 'set, not shown',
  standard: (value) => `${value} (default)`,
  onThisPage: 'on this page',
  inTheFile: (file) => `in ${file}`,
  inASettingsFile: 'in the settings file',
  inTheEnvironment: (name) => `by the environment variable ${name}`,
  onTheCommandLine: 'on the command line',
  fileOnly: 'Changed in the settings file only.',
  isSet: (place) => `Set ${place}.`,
  isWaiting: 'Waits for the next start.',
};
