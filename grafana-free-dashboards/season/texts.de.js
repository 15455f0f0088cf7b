// The German texts of this page.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    seasonReport: 'Saisonbericht',
    spring2026: 'Frühjahr 2026',
    tally: '← Zählbuch',
    printOrSaveAsPdf: 'Drucken oder als PDF speichern',
    from: 'Von',
    toThatDayIncluded: 'Bis einschließlich',
    showThisSpan: 'Zeitraum zeigen',
    askingTheService: 'Der Dienst wird gefragt …',
    keepThisSeason: 'Diese Saison speichern',
    keepsTheReportAsIt: 'Speichert den Bericht, wie er jetzt ist. Spätere Saisons werden mit ihm verglichen.',
    name: 'Name',
    remarkIfAny: 'Bemerkung (freiwillig)',
    keptSeasons: 'Gespeicherte Saisons',
  },

  // comparison-words.js
  differencePoints: 'Unterschied, Punkte',
  pFisher: 'p (Fisher)',
  seedsEachToTell: 'Nötige Samen je Aussaat',
  less: (firstName, secondName) => `${firstName} minus ${secondName}`,
  remainingSeedsWatchedForAnd: (speciesName, firstDays, secondDays) =>
    `${speciesName}; übrige Samen ${firstDays} und ${secondDays} Tage beobachtet`,
  theSmallerHad: (fewestSeeds) => `die kleinere hatte ${fewestSeeds}`,
  containers: 'Behälter',
  hours: 'Stunden',
  heatADay: 'Wärme je Tag',
  tooFewForAnInterval: 'zu wenige für ein Intervall',
  then: 'Damals',
  now: 'Jetzt',
  nowLessThenPoints: 'Jetzt minus damals, Punkte',
  ofWord: (germinated, sown) => `${germinated} von ${sown}`,
  heatADayInThe: (then, name, now) => `Wärme je Tag in den Behältern mit Samen: ${then} in ${name}, jetzt ${now}.`,
  theHeatOfCannotBe: (name) =>
    `Die Wärme von ${name} ist nicht vergleichbar: Sie wurde nicht in beiden Saisons gemessen oder über einer anderen Basis summiert.`,

  // container-rows.js
  insideTheLimits: 'Innerhalb der Grenzen',
  coldestHottest: 'Kältester, wärmster Wert',
  tooCold: 'Zu kalt',
  tooHot: 'Zu warm',
  tooDry: 'Zu trocken',
  lightLeaks: 'Lichteinfall',
  opened: 'Geöffnet',
  measured: 'Gemessen',
  noHeatSource: 'keine Wärmequelle',
  to: (number, hottest) => `${number} bis ${hottest}`,
  never: 'nie',
  notHeard: (silent) => `${silent} ohne Messwerte`,
  longest: (longestHours) => `am längsten ${longestHours}`,
  whileOpen: (duringOpenings) => `${duringOpenings} beim Öffnen`,
  lost: (degreeHoursLost) => `${degreeHoursLost} verloren`,
  daylight: 'Tageslicht',
  lamp: 'Lampe',
  notKnown: 'nicht bekannt',
  none: 'keiner',
  dayCount: { one: 'Tag', other: 'Tagen' },
  on: (part, counted) => `${part} an ${counted}`,

  // kept.js
  seedCount: { one: 'Samen', other: 'Samen' },
  sownGerminated: (counted, germinated) => `${counted} gesät, ${germinated} gekeimt`,
  nothingSown: 'nichts gesät',
  reallyRemoveIt: 'Wirklich entfernen?',
  remove: 'Entfernen',

  // lessons.js
  otherCount: { one: 'weiteren Behälter', other: 'weitere Behälter' },
  otherSowingCount: { one: 'weiteren Aussaat', other: 'weiteren Aussaaten' },
  lightDayCount: { one: 'Tag', other: 'Tagen' },
  sameForOthers: (counted) => ` Das gilt auch für ${counted}.`,
  sameForOthersInTotal: (counted, heat) => ` Das gilt auch für ${counted}: zusammen ${heat}.`,
  n95Interval: (low, high) => ` (95 %: ${low} bis ${high})`,
  heatOfAverageDays: (days) => `, die Wärme von ${days} durchschnittlichen Tagen`,
  lessonCold: (name, low, share, hours, lost, days) =>
    `${name} lag ${share} der gemessenen Zeit unter ${low} (${hours}). Verglichen mit dieser Grenze gingen ${lost} verloren${days}.`,
  atMost: (hottest) => `, höchster Wert ${hottest}`,
  lessonHot: (name, high, share, hours, most) =>
    `${name} lag ${share} der gemessenen Zeit über ${high} (${hours})${most}.`,
  lessonDry: (name, low, share, hours) =>
    `${name} lag ${share} der gemessenen Zeit unter ${low} Luftfeuchte (${hours}).`,
  lessonDaylight: (name, days, dose) =>
    `${name} bekam an ${days} Tageslicht (${dose}). Naht oder Deckelrand vom Fenster wegdrehen.`,
  lessonLamp: (name, days, dose) =>
    `${name} bekam an ${days} Lampenlicht (${dose}). Nachsehen, welche Lampe an war, oder Öffnungen eintragen.`,
  lessonLight: (name, days, dose) =>
    `${name} bekam an ${days} Licht unbekannter Herkunft (${dose}). Prüfen, ob der Deckel dicht ist, und Öffnungen eintragen.`,
  lessonUnheard: (name, gap, all, least, most) =>
    `${name} war ${gap} von ${all} ohne Messwerte: Die Wärme liegt zwischen ${least} und ${most}.`,
  nameAndOthers: (name, others) => `${name} und weitere (${others})`,
  lessonBlind: (names) => `Samen lagen ohne gemessene Temperatur, ihre Wärme ist nicht bekannt: ${names}.`,
  allOfThem: 'alle',
  ofThem: (number) => `${number} davon`,
  becauseOf: (part, reason) => `${part} mit dem Grund „${reason}“`,
  shareAlsoAbove: (share, counted) => ` Auch bei ${counted} lag der Anteil über ${share}.`,
  lessonCulled: (discarded, seeds, name, why) =>
    `${name}: Von ${seeds} Samen wurden ${discarded} ausgesondert, ${why}.`,
  lessonSowings: (better, worse, difference, interval) =>
    `${better} keimte um ${difference} Prozentpunkte besser als ${worse}${interval}. Zufall allein ist dafür unwahrscheinlich.`,
  watchedForDifferentTimes: (better, worse) => `Sie wurden verschieden lange beobachtet: ${better} und ${worse} Tage.`,
  causeNotShown: 'Die Ursache zeigen die Zählungen nicht.',
  clearAmongPairs: (pairs, clear) =>
    `Klare Unterschiede unter ${pairs} verglichenen Paaren: ${clear}; durch Zufall allein wäre es etwa bei einem von zwanzig Paaren so.`,
  noClearDifference: (first, second) => `Kein klarer Unterschied zwischen ${first} und ${second}.`,
  sameFractionOfBoth: 'Von beiden keimte derselbe Anteil. Das beweist nicht, dass sie gleich sind.',
  seedsToTell: (needed, smaller) =>
    `Um einen Unterschied dieser Größe in 80 % der Fälle zu finden, braucht jede Aussaat etwa ${needed} Samen; die kleinere hatte ${smaller}.`,
  lessonSources: (more, gain, less, interval) => `${more} gab je Tag ${gain} mehr als ${less}${interval}.`,
  betterThanIn: (name, season, difference, interval) =>
    `${name} keimte um ${difference} Prozentpunkte besser als in der Saison ${season}${interval}.`,
  worseThanIn: (name, season, difference, interval) =>
    `${name} keimte um ${difference} Prozentpunkte schlechter als in der Saison ${season}${interval}.`,
  nowAndThen: (now, then) => `Jetzt keimten ${now}, damals ${then}.`,

  // pictures.js
  timeTooCold: 'Anteil der gemessenen Zeit unter der unteren Grenze',
  timeTooHot: 'Anteil der gemessenen Zeit über der oberen Grenze',
  timeTooDry: 'Anteil der gemessenen Zeit unter der Feuchtegrenze',
  timeWithoutReadings: 'Anteil der Zeit ohne Messwerte',
  timeWithReadings: 'Anteil der Zeit mit Messwerten, von Behältern mit Samen',
  daysWithSuchLight: 'Tage mit solchem Licht',
  seedsDiscarded: 'Anteil der Samen, die vor der Keimung ausgesondert wurden',
  differenceWithInterval:
    'Unterschied in Prozentpunkten mit 95-%-Intervall; an der senkrechten Linie: kein Unterschied',
  heatADayWithInterval: 'Wärme je Tag mit 95-%-Intervall',
  germinatedThenAndNow: 'Anteil der gekeimten Samen',
  inSeason: (species, season) => `${species}, ${season}`,
  inThisSeason: (species) => `${species}, diese Saison`,

  // report.js
  season: (span) => `Saison ${span}`,
  keptOnTheFiguresAre: (keptAt) => `Gespeichert am ${keptAt}, mit den Zahlen dieses Tages.`,
  lessons: 'Lehren',
  noLessonFoundByThe: 'Nach den Regeln dieser Seite ergibt sich keine Lehre.',
  sownAndComeUp: 'Gesät und gekeimt',
  belowAFractionStandsIts: 'Unter jedem Anteil steht sein 95-%-Intervall.',
  sowing: 'Aussaat',
  noContainerHeldSeedsOr: 'In dieser Saison hatte kein Behälter Samen, und keiner wurde gemessen.',
  overTheTimeThatWas: 'Nur gemessene Zeit zählt.',
  container: 'Behälter',
  pairCount: { one: 'Paar', other: 'Paare' },
  withFewerSeedsLeftOut: (counted) => ` ${counted} mit weniger Samen weggelassen.`,
  sowingsOfOneSpeciesAn: (more) =>
    `Aussaaten einer Art. Ein Intervall mit der Null darin zeigt keinen Unterschied.${more}`,
  sowings: 'Aussaaten',
  heatSourcesAllAbove: (base) => `Wärmequellen, alle über ${base}.`,
  heatSource: 'Wärmequelle',
  compared: 'Verglichen',
  againstEarlierSeasons: 'Vergleich mit früheren Saisons',
  seedsOfAllSowingsOf: 'Samen aller Aussaaten einer Art zusammen.',
  species: 'Art',
  noSpeciesWasSownIn: 'Keine Art wurde in beiden Saisons gesät.',

  // season.js
  removed: (name) => `Entfernt: ${name}.`,
  kept: (name) => `Gespeichert: ${name}.`,

  // words.js
  under0001: 'unter 0,001',
  n95To: (points, low, high) => `${points} % (95 %: ${low} bis ${high} %)`,
  nothingWasSownInThis: 'In dieser Saison wurde nichts gesät.',
  recordASowing: 'Eine Aussaat im Zählbuch eintragen',
  inSowings: (sowings) => ` in ${sowings} Aussaaten`,
  sownNotCheckedYet: (name, counted, many) => `${name}: ${counted} gesät${many}, noch nicht kontrolliert.`,
  moreWereNotCheckedYet: (unchecked) => `; ${unchecked} weitere noch nicht kontrolliert`,
  ofGerminated: (name, germinated, counted, fraction, part, more) =>
    `${name}: ${germinated} von ${counted} gekeimt, ${fraction}${part}${more}.`,
  earlierSowingCount: { one: 'frühere Aussaat', other: 'frühere Aussaaten' },
  is: 'zählt',
  are: 'zählen',
  stillHadSeedsInA: (counted, part) => `${counted} mit Samen im Behälter zu Beginn der Saison ${part} hier nicht.`,
  sown: 'Gesät',
  seeds: 'Samen',
  germinated: 'Gekeimt',
  firstFound: 'Zuerst gefunden',
  halfBy: 'Die Hälfte bis',
  culled: 'Ausgesondert',
  pottedOn: 'Getopft',
  left: 'Übrig',
  heatUntilTheLastCheck: 'Wärme bis zur letzten Kontrolle',
  notLookedAt: (notLookedAt) => `${notLookedAt} nicht angesehen`,
  notChecked: 'nicht kontrolliert',
  day: (firstFoundDay) => `Tag ${firstFoundDay}`,
  notHalf: 'nicht die Hälfte',
  alive: (alive) => `${alive} am Leben`,
  notMeasured: 'nicht gemessen',
  day2: (lastCheckDay, bounds) => `Tag ${lastCheckDay}${bounds}`,
  countsAreThoseOfThe:
    'Gezählt sind die Kontrollen bis zum Ende der Saison; ein Samen ist irgendwann zwischen zwei Kontrollen gekeimt. Samen, die niemand angesehen hat, fehlen in Anteilen und Vergleichen. Alle Intervalle sind 95-%-Intervalle: für Anteile nach Wilson, für Unterschiede nach Newcombe; jeder Samen zählt als ein Versuch.',
  mostly: (base) => ` (meist ${base})`,
  heatIsDegreeHoursOf: (part) =>
    `Wärme sind Gradstunden: bei Aussaaten über der Basis der Art, bei Behältern über ihrer eigenen Basis${part}; Zeit ohne Messwerte zählt nicht; der Bereich darunter sagt, wie viel Wärme in ihr höchstens dazukam.`,
  cullReasons: {
    mould: 'Schimmel',
    dead: 'tot',
    empty: 'leer',
    eaten: 'gefressen',
    taken: 'entnommen',
    other: 'anderes',
  },
};
