// The German texts of this page.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    charts: 'Diagramme',
    comparesContainersOverTime:
      'Vergleicht Behälter über die Zeit. Die Adresse dieser Seite enthält die Auswahl; als Lesezeichen speichern oder teilen.',
    print: 'Drucken',
    askingTheService: 'Der Dienst wird gefragt …',
    containers: 'Behälter',
    search: 'Suchen',
    whatToDraw: 'Was gezeichnet wird',
    stretchOfTimeShown: 'Gezeigter Zeitraum',
    course: 'Verlauf',
    whatTheChartsMark: 'Was die Diagramme markieren',
    barsAtTheTop: 'Mehrere Behälter: Markierungen sind Balken oben im Bild, in der Farbe des Behälters.',
  },

  // choice.js
  chooseAContainer: 'Einen Behälter auswählen.',
  noReadingsYet: 'In dieser Auswahl ist nichts gemessen, weil kein Sensor darin ist.',
  placeASensor: 'Einen Sensor einsetzen',
  noMoreThan: (most) => `Mehr als ${most} Linien sind nicht zu unterscheiden. Für eine andere erst eine weglassen.`,
  moreBySearch: (count) => `${count} weitere: über die Suche.`,
};
