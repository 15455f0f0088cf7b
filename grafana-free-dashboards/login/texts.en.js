// The English texts of this page.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    signIn: 'Sign in',
    name: 'Name',
    password: 'Password',
    thisConnectionIsNotEncrypted: 'This connection is not encrypted. Others on this network can read the password.',
    passwordLostOnTheMachine: 'Password lost? On the machine of the service, run <code>./tepidarium password</code>.',
    keepThisDeviceSignedIn: 'Keep this device signed in for a year',
  },
};
