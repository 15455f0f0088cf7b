// The German texts of this page.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    labels: 'Etiketten',
    preview: 'Vorschau',
    howToPrint: 'So wird gedruckt',
    askingTheService: 'Der Dienst wird gefragt …',
    containers: 'Behälter',
    all: 'Alle',
    none: 'Keiner',
    firstFreeLabel: 'Erstes freies Etikett',
    countedAlongTheRowsPrint: 'Zeilenweise gezählt. Ohne Skalierung drucken.',
    print: 'Drucken',
  },

  // labels.js
  labelCount: { one: 'Etikett', other: 'Etiketten' },
  sheetCount: { one: 'Bogen', other: 'Bögen' },
  on: (counted, counted2) => `${counted} auf ${counted2}.`,
  qrCodeCheck: (name) => `QR-Code: Kontrolle von ${name}`,
  scanToCheck: 'Scannen zum Kontrollieren',

  // sheets.js
  seedCount: { one: 'Samen', other: 'Samen' },
  lot: (speciesName, counted, lot) => `${speciesName}, ${counted}, Partie ${lot}`,
  sown: (sownAt) => `Gesät ${sownAt}`,
  andMoreSowings: (more) => `und ${more} weitere Aussaaten`,
  aPhoneCannotOpenSet: (hostname) =>
    `Ein Telefon kann ${hostname} nicht öffnen. notices.publicUrl auf die Adresse dieses Dienstes im eigenen Netz setzen. Dann den Dienst neu starten und diese Seite neu laden.`,
};
