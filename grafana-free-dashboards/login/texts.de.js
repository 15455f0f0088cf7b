// The German texts of this page.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    signIn: 'Anmelden',
    name: 'Name',
    password: 'Passwort',
    thisConnectionIsNotEncrypted:
      'Diese Verbindung ist nicht verschlüsselt. Andere in diesem Netz können das Passwort lesen.',
    passwordLostOnTheMachine:
      'Passwort verloren? Auf dem Rechner des Dienstes <code>./tepidarium password</code> ausführen.',
    keepThisDeviceSignedIn: 'Dieses Gerät ein Jahr lang angemeldet lassen',
  },
};
