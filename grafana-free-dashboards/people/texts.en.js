// The English texts of this page.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    people: 'People',
    askingTheService: 'Asking the service …',
    yourPassword: 'Your password',
    current: 'Current',
    new8CharactersOrMore: 'New, 8 characters or more',
    change: 'Change',
    signedIn: 'Signed in',
    nobodyIsSignedIn: 'Nobody is signed in.',
    whoMayDoWhat: 'Who may do what',
    addAPerson: 'Add a person',
    name: 'Name',
    role: 'Role',
    password8CharactersOrMore: 'Password, 8 characters or more',
    add: 'Add',
    tokens: 'Tokens',
    withATokenAProgram:
      'With a token, a program uses the API without a password. <a href="/docs/operation.html#login">More</a>',
    thereIsNoToken: 'There is no token.',
    makeAToken: 'Make a token',
    usedBy: 'Used by',
    days: 'Days',
    make: 'Make',
  },

  // people.js
  people: 'People',
  account: 'Account',
  yourPasswordIsChangedYour: 'Your password is changed. Your other sessions ended.',
  canSignInNow: (name) => `${name} can sign in now.`,
  copyTheTokenNowIt: 'Copy the token now. It is shown only once.',

  // rows.js
  end: 'End',
  thisBrowser: 'This browser: ',
  remove: 'Remove',
  roleOf: (name) => `Role of ${name}`,
  remove2: (name) => `Remove ${name}`,
  newPasswordOf: (name) => `New password of ${name}`,
  setPassword: 'Set password',
  thePasswordOfIsSet: (name) => `The password of ${name} is set. Other sessions of ${name} ended.`,
  newPassword: 'New password',

  // words.js
  lookSeesEverything: 'Look: sees everything',
  tendAlsoRecordsWork: 'Tend: also records work',
  ownEverything: 'Own: everything',
  unknownDevice: 'Unknown device',
  until: 'until',
  ifNotUsedUntil: 'if not used, until',
  lastUsed: (moment) => `last used ${moment}`,
  ended: (ends) => `ended ${ends}`,
  until2: (ends) => `until ${ends}`,
  neverUsed: 'never used',
  noWrongPasswordInThe: 'No wrong password in the past 24 hours.',
  anUnknownName: 'an unknown name',
  wrongPasswordCount: { one: 'wrong password', other: 'wrong passwords' },
  inThePast24Hours: (counted, whose, address, moment) =>
    `${counted} in the past 24 hours, the latest for ${whose} from ${address} at ${moment}.`,
};
