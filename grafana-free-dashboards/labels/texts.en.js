// The English texts of this page.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    labels: 'Labels',
    preview: 'Preview',
    howToPrint: 'How to print',
    askingTheService: 'Asking the service …',
    containers: 'Containers',
    all: 'All',
    none: 'None',
    firstFreeLabel: 'First free label',
    countedAlongTheRowsPrint: 'Counted along the rows. Print without scaling.',
    print: 'Print',
  },

  // labels.js
  labelCount: { one: 'label', other: 'labels' },
  sheetCount: { one: 'sheet', other: 'sheets' },
  on: (counted, counted2) => `${counted} on ${counted2}.`,
  qrCodeCheck: (name) => `QR code: check ${name}`,
  scanToCheck: 'Scan to check',

  // sheets.js
  seedCount: { one: 'seed', other: 'seeds' },
  lot: (speciesName, counted, lot) => `${speciesName}, ${counted}, lot ${lot}`,
  sown: (sownAt) => `Sown ${sownAt}`,
  andMoreSowings: (more) => `and ${more} more sowings`,
  aPhoneCannotOpenSet: (hostname) =>
    `A phone cannot open ${hostname}. Set notices.publicUrl to the address of this service in your network. Then restart the service and load this page again.`,
};
