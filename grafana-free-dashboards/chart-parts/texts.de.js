// The German texts of charts.

export default {
  // figures-table.js
  from: 'Ab',
  mean: 'Mittel',
  lowest: 'Tiefster Wert',
  highest: 'Höchster Wert',
  sumByItsEnd: 'Summe am Ende',
  atMostTitle: 'Höchstens',

  // marked.js
  opening: 'Öffnung',
  daylight: 'Tageslicht',
  lamp: 'Lampe',
  otherLight: 'Anderes Licht',
  endNotSeen: 'Ende nicht gesehen',
  lightMark: (title, lasting, peak) => `${title}: ${lasting}, bis ${peak}`,
  noted: (title, lasting) => `${title}: ${lasting}`,
  outside: (title, lasting, worst) => `${title}: ${lasting}, im schlimmsten Fall ${worst}`,
  sensorPlaced: (sensor) => `Sensor ${sensor} eingesetzt`,
  sensorRemoved: (sensor) => `Sensor ${sensor} herausgenommen`,
  sensorCalibrated: (sensor, quantity) => `Sensor ${sensor} kalibriert: ${quantity}`,
  sowingNumber: (number) => `Aussaat ${number}`,
  checked: (sowing, group, germinated) => `Kontrolle von ${sowing}, Gruppe ${group}: ${germinated} neu gekeimt`,
  untilTime: (from, to) => `${from} bis ${to}`,

  // marked-list.js
  nothingMarked: 'In diesem Zeitraum ist nichts markiert.',
  showAll: (count) => `Alle ${count} zeigen`,

  // panel.js
  theSameAsATable: 'Dasselbe als Tabelle',
  png: 'Bild',
  csv: 'CSV',
  saveAsPicture: 'Dieses Diagramm als Bild speichern (PNG)',
  saveFigures: 'Die Werte dieses Diagramms speichern (CSV)',
  heatWasAddedUp: 'keine Wärme summiert',
  wasHeard: (name) => `nichts gemessen: ${name}`,
  nothingToDraw: (part) => `In diesem Zeitraum gibt es nichts zu zeichnen: ${part}.`,

  // range.js
  n24Hours: '24 Stunden',
  n7Days: '7 Tage',
  n4Weeks: '4 Wochen',
  n4Wk: '4 Wo.',
  n24H: '24 h',
  n7D: '7 T.',
  all: 'Alles',
  earlier: '← Früher',
  later: 'Später →',
  closer: 'Zoom +',
  wider: 'Zoom −',

  // range-words.js
  now: 'jetzt',
  shownFromTo: (from, to, zone) =>
    `${from} bis ${to}, in der Zeitzone ${zone}. Seitlich über ein Diagramm ziehen vergrößert; Doppelklick oder zweimal tippen führt zurück.`,

  // sentence.js
  nothingHeard: 'kein Messwert',
  gapCount: { one: 'Lücke', other: 'Lücken' },
  withGaps: (counted) => ` ${counted} ohne Messwerte.`,
  onlyOnce: (value, at) => `${value}, nur einmal gemessen: ${at}.`,
  throughout: (value, gaps) => `Durchweg ${value}.${gaps}`,
  fromTo: (mean, low, lowAt, high, highAt, gaps) =>
    `Im Mittel ${mean}; am tiefsten ${low} (${lowAt}), am höchsten ${high} (${highAt}).${gaps}`,
  soFar: 'bisher',
  byItsEnd: 'an seinem Ende',
  heatAdded: (added, sum, when) => `${added} kamen in diesem Zeitraum dazu; ${when} ${sum}.`,
  heatAddedAtMost: (added, sum, when, most) =>
    `${added} kamen in diesem Zeitraum dazu; ${when} ${sum}, mit den Lücken höchstens ${most}.`,
  withoutReadings: (count) => ` ${count} ohne Messwerte.`,
  onlyOne: (name, value) => `Nur ${name} hat Messwerte: im Mittel ${value}.`,
  allAlike: (value) => `Im Mittel alle gleich: ${value}.`,
  highestAndLowest: (name, value, other, least) =>
    `Im Mittel liegt ${name} mit ${value} am höchsten und ${other} mit ${least} am tiefsten.`,
  mostAndLeastHeat: (name, value, other, least) =>
    `In diesem Zeitraum bekam ${name} mit ${value} am meisten Wärme und ${other} mit ${least} am wenigsten.`,
  spread: (min, max) => ` (${min} bis ${max})`,
  atMost: (sum, most) => `${sum}, höchstens ${most}`,

  // specs.js
  temperature: (unitName) => `Temperatur, ${unitName}`,
  shadedTheLimits:
    'Schattiert: die Grenzen. Linie: Mittel, mit tiefstem und höchstem Wert darum. Gestrichelt: die Raumluft.',
  humidity: 'Feuchte, %',
  shadedSaturated: (from) =>
    `Schattiert: gesättigt, ab etwa ${from} %; dort können Sensoren Werte nicht unterscheiden. Gestrichelt: die untere Grenze.`,
  lightLux: 'Licht, lx',
  eachLineUpwards: 'Jede Linie bedeutet zehnmal so viel Licht wie die darunter.',
  eachLineUpwardsShaded: 'Jede Linie bedeutet zehnmal so viel Licht wie die darunter. Schattiert: dunkel genug.',
  heatSoFar: (unitName) => `Wärmesumme, ${unitName}·h`,
  aDotAtTheEnd:
    'Ein Punkt am Ende jedes Tages, gerade Linien dazwischen. Schattiert darüber: was in den Lücken höchstens dazukam.',
  lineMeanWithSpread: 'Linie: Mittel, mit tiefstem und höchstem Wert darum.',
};
