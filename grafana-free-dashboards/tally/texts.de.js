// The German texts of this page.

import { dative } from '../shared/texts.de.js';

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    tally: 'Zählbuch',
    howToCount: 'So wird gezählt',
    askingTheService: 'Der Dienst wird gefragt …',
    nextChecks: 'Nächste Kontrollen',
    species: 'Arten',
    room: 'Raum',
    checksDueAsACalendar: 'Fällige Kontrollen als Kalender',
    sowings: 'Aussaaten',
    compareTwoSowings: 'Zwei Aussaaten vergleichen',
    compareHeatSources: 'Wärmequellen vergleichen',
    heatOrDays: 'Wärme oder Tage?',
    theRecordAsAFile: 'Das Zählbuch als Datei',
    seasonReportAllOfIt:
      '<a href="/season.html">Saisonbericht</a>: alles auf einer Seite, zum Drucken und zum Speichern für spätere Saisons.',
    takeItAlong:
      'Mitnehmen oder in eine andere Installation übernehmen: <a href="/files.html#record-part">Dateien</a>.',
  },

  // check-fields.js
  newlyGerminated: 'Neu gekeimt',
  pottedOn: 'Getopft',
  whyCulled: (number) => `Grund des Aussonderns, ${number}`,
  culled: 'Ausgesondert',
  hadGerminatedBefore: 'waren schon gekeimt',
  culledForAnotherReasonToo: 'Auch aus anderem Grund ausgesondert',
  rootLengthsCmOptional: 'Längen der Keimwurzeln (cm, freiwillig)',
  oneForEachSeedMeasured: 'Eine je gemessenem Samen: 2,5; 3; 4',
  rootLengthsIsNotA: (part) => `Längen der Keimwurzeln: „${part}“ ist keine Länge in cm.`,

  // check-row.js
  checkGroup: (id) => `Gruppe ${id} kontrollieren`,
  check: 'Kontrolle',

  // compare-words.js
  nothingToCompareYet: 'Noch nichts zu vergleichen.',
  nobodyHasLookedAtThe: (join) => `Noch niemand hat die Samen von ${join} angesehen.`,
  theFirstLessTheSecond: (difference) => `Die erste minus die zweite: ${difference} Prozentpunkte; `,
  anythingFromToFitsThese: (low, high, fisherP) =>
    `alles von ${low} bis ${high} passt zu diesen Zählungen (95 %, Newcombe). Exakter Test nach Fisher: p = ${fisherP}.`,
  bothFractionsAreTheSame: 'Beide Anteile sind bisher gleich; das beweist nicht, dass beide gleich gut sind.',
  seedCount: { one: 'Samen', other: 'Samen' },
  toFindADifferenceOf: (counted, sown, sown2) =>
    `Um einen so großen Unterschied in vier von fünf Versuchen zu finden, braucht jede Aussaat etwa ${counted}; sie hatten ${sown} und ${sown2}.`,
  paceAndFinalFractionTogether: (p) => `Keimtempo und Keimanteil zusammen (Log-Rank über Zeitspannen): p = ${p}.`,
  notOverYetAndSeeds: (remaining, remaining2, dayWords, dayWords2) =>
    `Noch nicht zu Ende: ${remaining} und ${remaining2} Samen noch gesund, beobachtet im Mittel bis ${dayWords} und ${dayWords2}. `,
  aSowingThatWasWatched: 'Eine länger beobachtete Aussaat hatte mehr Zeit.',
  ofWord: (name, germinated, sown, fraction, others) => `${name}: ${germinated} von ${sown}, ${fraction}${others}.`,
  didBetterByMoreThan: (part) => `${part} war besser. Zufall allein erklärt den Unterschied kaum.`,
  theseTwoSayAlmostNothing: 'Diese beiden sagen fast nichts darüber, welche besser ist.',
  theseTwoDoNotTell: 'Diese beiden zeigen nicht sicher, welche besser ist.',
  bestAndWorstGroupAre: (number) => `Beste und schlechteste Gruppe liegen ${number} Prozentpunkte auseinander.`,
  groupCount: { one: 'Gruppe', other: 'Gruppen' },
  seedTestingToleratesPointsFor: (number, counted) =>
    `Die Saatgutprüfung toleriert ${number} Punkte bei ${counted} dieser Größe.`,
  exact: 'exakter',
  chanceAloneMakesGroupsDiffer: (pWords, part) =>
    `So große Unterschiede macht der Zufall allein mit p = ${pWords} (${part} Test).`,
  allGroupsTogetherOfWhen: (germinated, sown, fraction) =>
    `Alle Gruppen zusammen: ${germinated} von ${sown}, ${fraction}, ihre Unterschiede berücksichtigt.`,
  withAllOrNoneGerminated: 'Sind alle oder keine gekeimt, konnte sich kein Unterschied zeigen.',
  smallDifferencesCanStayUnseen: 'Kleine Unterschiede bleiben bei so wenigen Samen vielleicht unbemerkt.',
  theGroupsDifferByMore:
    'Die Gruppen unterscheiden sich stärker als durch Zufall: nach einer Ursache in einem Behälter suchen.',
  theGroupsDoNotDiffer: 'Die Gruppen unterscheiden sich nicht stärker als durch Zufall.',
  cochranMantelAndHaenszel: 'Cochran, Mantel und Haenszel',
  exactTest: 'exakter Test',
  withinEachLotLessPercentage: (first, second, difference, low, high, part, pWords) =>
    `Innerhalb jeder Partie, ${first} minus ${second}: insgesamt ${difference} Prozentpunkte (95 %: ${low} bis ${high}; ${part}: p = ${pWords}).`,
  commonOddsRatio95To: (oddsRatio, number, number2) =>
    `Gemeinsames Chancenverhältnis ${oddsRatio} (95 %: ${number} bis ${number2}).`,
  theLotsDisagreeAboutThe: (p) =>
    `Die Partien widersprechen sich beim Unterschied (p = ${p}): Auf eine gemeinsame Zahl ist kein Verlass.`,
  theLotsAgreeAsFar: (p) => `Kein Anzeichen, dass die Partien sich widersprechen (p = ${p}).`,
  oneLotIsOneTrial:
    'Eine Partie ist ein einziger Versuch: Der Unterschied kann an den Behältern liegen. Mit einer anderen Partie wiederholen.',
  n95To: (signedPoints, signedPoints2) => ` (95 %: ${signedPoints} bis ${signedPoints2})`,
  lotsAsUnitsMean: (difference, part) => `Partien als Einheiten: Mittel ${difference}${part}`,
  lotCount: { one: 'Partie', other: 'Partien' },
  withNoPCanBe: (part, counted, leastFlipsP) => `${part}; mit ${counted} kann kein p unter ${leastFlipsP} liegen.`,
  seedsOfOneContainerShare:
    'Samen eines Behälters teilen Wärme und Feuchte; das erste p kann deshalb zu klein sein. Wärmequellen unterscheiden sich auch in Licht, Austrocknung und Ort.',
  andTheLotsDisagree: (first, second) => `${first} und ${second}: Die Partien widersprechen sich.`,
  didBetterThanWithinThe: (better, part) => `${better} war besser als ${part}, innerhalb derselben Partien.`,
  noClearDifferenceYetBetween: (first, second) => `Noch kein klarer Unterschied zwischen ${first} und ${second}.`,
  under0001: 'unter 0,001',

  // compare.js
  thisSowing: 'Diese Aussaat',
  sowingInSown: (name, places, moment) => `${name}, in ${places}, gesät ${moment}`,
  withThisOne: 'mit dieser',
  compare: 'Vergleichen',
  chooseTwoDifferentSowings: 'Zwei verschiedene Aussaaten wählen.',

  // course-view.js
  overDays: 'Über die Tage',
  overHeat: 'Über die Wärme',
  germinated: 'gekeimt',
  culled2: 'ausgesondert',
  stillSound: 'noch gesund',
  theCurveBeginsWithThe: 'Die Kurve beginnt mit der ersten Kontrolle.',
  drawTheCurve: 'Kurve zeichnen',
  fullLineFoundGerminatedBy:
    'Durchgezogen: bis dahin gekeimt gefunden. Gestrichelt: der früheste mögliche Zeitpunkt, gleich nach der Kontrolle davor. Schattiert: nicht bekannt.',
  day: (day, germinatedSoFar) => `Tag ${day}: ${germinatedSoFar}`,
  germinatedOfSown: (sown, join) => `Gekeimt von ${sown} gesäten: ${join}.`,
  germinatedByDaySinceSowing: 'Gekeimt, nach Tagen seit der Aussaat',
  daysSinceSowing: 'Tage seit der Aussaat',
  whatWasCulledIsLeft:
    ' Ausgesonderte Samen zählen von da an nicht mehr; die Kurve kann darum über dem einfachen Anteil enden.',
  eachCheck: 'Jede Kontrolle',
  dayGroup: (day, group) => `Tag ${day}, Gruppe ${group}`,
  soFarOfTheSowing: 'Bisher, von der Aussaat',
  theSameAsATable: 'Dasselbe als Tabelle',

  // due-days.js
  overdue: 'Überfällig',
  today: 'Heute',
  tomorrow: 'Morgen',

  // due-list.js
  allSpecies: 'Alle Arten',
  allRooms: 'Alle Räume',
  group: (container, speciesName, id, late) => `${container}: ${speciesName}, Gruppe ${id}${late}`,

  // entries.js
  withdrawn: (reason) => ` Zurückgezogen: ${reason}.`,
  corrected: (reason) => ` Korrigiert: ${reason}.`,
  aCorrection: ' (eine Korrektur)',
  correct: 'Korrigieren',
  withdraw: 'Zurückziehen',
  whyOptional: 'Warum (freiwillig)',
  doneAt: 'Wann geschehen',
  alive: 'Am Leben',
  correctThisEntry: 'Diesen Eintrag korrigieren',
  theOldEntryStaysIn: (stamp, entry) => `${stamp}. ${entry}. Der alte Eintrag bleibt durchgestrichen im Zählbuch.`,
  correctIt: 'Korrigieren',
  correctionOf: (entry) => `Korrektur von: ${entry}`,
  withdrawThisEntry: 'Diesen Eintrag zurückziehen?',
  itStaysInTheRecord: (stamp, entry) =>
    `${stamp}. ${entry}. Er bleibt durchgestrichen im Zählbuch und zählt nicht mehr.`,
  withdrawIt: 'Zurückziehen',
  withdrawalOf: (entry) => `Zurückgezogen: ${entry}`,

  // entry-words.js
  intoGroup: (counted, container, group) => `${counted} in ${container} (Gruppe ${group})`,
  sown: (join) => `Gesät: ${join}`,
  putWithGroup: (joinTo) => `, zu Gruppe ${joinTo} gelegt`,
  nowGroup: (splitInto) => `, jetzt Gruppe ${splitInto}`,
  groupMovedTo: (group, move, to, join, part) => `Gruppe ${group}: ${move} umgesetzt in ${to}${join}${part}`,
  checkOfGroup: (group, check) => `Kontrolle der Gruppe ${group}: ${check}`,
  seedlingsOfGroupAlive: (group, alive) => `Sämlinge der Gruppe ${group}: ${alive} am Leben`,
  groupNamed: (group, name) => (name ? `Gruppe ${group} heißt „${name}“` : `Name der Gruppe ${group} entfernt`),
  sowingNamed: (sowing, name) => (name ? `Aussaat ${sowing} heißt „${name}“` : `Name der Aussaat ${sowing} entfernt`),
  withdrawn2: 'Zurückgezogen',
  allSeeds: 'alle Samen',
  ungerminated: (ungerminated) => `${ungerminated} ungekeimt`,
  germinated2: (germinated) => `${germinated} gekeimt`,
  noSeeds: 'keine Samen',
  newlyGerminated2: (germinated) => `${germinated} neu gekeimt`,
  hadGerminated: ', waren gekeimt',
  culled3: (count, part, part2) => `${count} ausgesondert (${part}${part2})`,
  pottedOn2: (pottedOn) => `${pottedOn} getopft`,
  aRoot: 'eine Keimwurzel',
  roots: 'Keimwurzeln',
  ofCm: (part, join) => `${part} von ${join} cm`,
  nothingNew: 'nichts Neues',

  // forecast-words.js
  theNextOf: (seeds, remaining) => `${seeds === '1' ? 'der nächste' : `die nächsten ${seeds}`} von ${remaining}`,
  to: (earliest, latest) => `${earliest} bis ${latest}`,
  notBeforePerhapsNever: (earliest) => `nicht vor ${earliest}, vielleicht nie`,
  shouldHaveComeByNow: (next, latest) => `${next} wohl schon gekeimt (${latest})`,
  comes: 'keimt',
  come: 'keimen',
  around: (next, part, longDay, latest) => `${next} ${part} etwa am ${longDay} (${latest})`,
  today2: 'heute',
  ifItStaysAsWarm: (heatPerDay, when) => `Bleibt es so warm wie in den letzten Tagen (${heatPerDay}): ${when}.`,
  bestDayForTheNext: (day, why) => `Bester Tag für die nächste Kontrolle: ${day}${why}.`,
  aDay: (likely) => `${likely} je Tag`,
  toADay: (from, to, heatUnit) => `${from} bis ${to} ${heatUnit} je Tag`,

  // forecast.js
  noForecastByHeat: 'Keine Vorhersage aus der Wärme',
  noForecastByHeatFor: 'Keine Vorhersage aus der Wärme für andere Gruppen',
  groupIn: (id, container) => `Gruppe ${id} in ${container}`,
  check2: (where, stamp, why) => `${where}: kontrollieren ${stamp}, ${why}.`,

  // form-parts.js
  aWholeNumber1Or: (title) => `${title}: eine ganze Zahl ab 1 fehlt.`,

  // group-sheets.js
  groupUngerminatedGerminated: (speciesName, id, ungerminated, germinated) =>
    `${speciesName}, Gruppe ${id}: ${ungerminated} ungekeimt, ${germinated} gekeimt darin.`,
  rootsRemarkPictureAnotherTime: 'Keimwurzeln, Bemerkung, Bild, andere Zeit',
  group2: (id, check) => `Gruppe ${id}: ${check}`,
  there: 'Dort',
  ungerminated2: 'Ungekeimt',
  germinated3: 'Gekeimt',
  asAGroupOfTheir: 'als eigene Gruppe',
  togetherWithGroup: (id) => `zusammen mit Gruppe ${id}`,
  moveSeeds: 'Samen umsetzen',
  groupNowIn: (id, container) => `Gruppe ${id}, jetzt in ${container}.`,
  moveThem: 'Umsetzen',
  to2: 'Wohin',
  anotherTime: 'Andere Zeit',
  groupMovedTo2: (id, part, names) => `Gruppe ${id}: ${part} umgesetzt in ${names}`,
  countSeedlings: 'Sämlinge zählen',
  seedlingCount: { one: 'Sämling', other: 'Sämlinge' },
  groupPottedOn: (id, counted) => `Gruppe ${id}: ${counted} getopft.`,
  groupSeedlingsAlive: (id, number) => `Gruppe ${id}: ${number} Sämlinge am Leben`,

  // heat-course.js
  addingUpTheHeat: 'Wärme wird summiert …',
  barsWithEndsHowFar:
    'Balken mit Enden: wie unsicher die Wärme bei einer Kontrolle ist, durch Lücken und Fehler der Sensoren.',
  smoothLineTheFittedCurve: 'Glatte Linie: die angepasste Kurve.',
  theHeavyBarOnIt: 'Der dicke Balken darauf: die Wärme, bei der die Hälfte gekeimt ist, mit 95-%-Intervall.',
  germinatedByHeat: (course) => `Gekeimt, nach Wärme ${course}`,
  seedsWereSown: (headline, sown) => `${headline} ${sown} Samen wurden gesät.`,
  heatIn: (heatUnit, course) => `Wärme in ${heatUnit} ${course}`,
  seeds: 'Samen',
  group3: (count, part, group) => `${count} ${part}, Gruppe ${group}`,
  notYetAt: 'Noch nicht bei',
  hardlyMeasured: 'kaum gemessen',
  foundBy: 'Gefunden bis',
  notSeen: 'nicht gesehen',
  to3: (likely, least, most) => `${likely} (${least} bis ${most})`,

  // heat-or-days.js
  workingItOut: 'Wird berechnet …',
  daysKeptBeforeSowing: 'Tage der Lagerung vor der Aussaat',
  theSowingsCounted: 'Die gezählten Aussaaten',
  sowingsByDaysKept: 'Aussaaten nach Tagen der Lagerung',
  lot: 'Partie',
  lot2: (lot) => `Partie ${lot}`,
  daysKept: 'Tage gelagert',
  ofWord2: (germinated, seeds) => `${germinated} von ${seeds}`,

  // heat-words.js
  noMoreThanAt: (ceiling) => `, höchstens wie bei ${ceiling}`,
  above: (base, part) => `über ${base}${part}`,
  n95To2: (low, high, unit) => `95 %: ${low} bis ${high}${unit}`,
  n95OrMoreWithNo: (low, unit) => `95 %: ${low}${unit} oder mehr, nach oben offen`,
  n95OrLessWithNo: (high, unit) => `95 %: ${high}${unit} oder weniger, nach unten offen`,
  itsIntervalIsOpenAt: 'das Intervall ist auf beiden Seiten offen',
  readingsOfUpTo: (words) => `Messwerte von bis zu ${words}.`,
  notKnownYetTheHeat: 'Noch nicht bekannt: die Wärme, die die Hälfte der Samen braucht.',
  everGerminateWouldNeed: 'je keimen, bräuchte',
  germinatedNeeded: 'gekeimt sind, brauchte',
  halfOfThoseThatAbove: (part, medianHeat, base, medianInterval) =>
    `Die Hälfte der Samen, die ${part} ${medianHeat} über ${base} (${medianInterval}).`,
  thisIsAnExtrapolationThe: (watched) =>
    `Das ist über das Gesehene hinaus gerechnet: Die Samen haben bisher ${watched} erhalten.`,
  wouldNeed: 'bräuchte',
  needed: 'brauchte',
  theFirstTenthOfThem: (part, heatForTenth) => `Das erste Zehntel ${part} ${heatForTenth}.`,
  assumptionEverySeedGerminates: 'Annahme: Am Ende keimt jeder Samen.',
  inTheEndGerminate: (finalFraction, finalFractionInterval) =>
    `Am Ende keimen ${finalFraction} % (${finalFractionInterval}).`,
  theCountsFollowTheHeat: (base) => `Die Zählungen folgen der Wärme über ${base} besser als den Tagen.`,
  theCountsFollowTheDays: (base) => `Die Zählungen folgen den Tagen besser als der Wärme über ${base}.`,
  sowingCount: { one: 'Aussaat', other: 'Aussaaten' },
  germinatedOfIn: (germinated, seeds, counted) => `${germinated} von ${seeds} gekeimt, in ${counted}`,
  byHeat: 'Nach Wärme',
  halfByAbove: (medianHeat, base, medianInterval) => `die Hälfte bis ${medianHeat} über ${base} (${medianInterval})`,
  byDays: 'Nach Tagen',
  halfByDay: (medianDays) => `die Hälfte bis Tag ${medianDays}`,
  halfOnlyFarBeyondThe: 'die Hälfte erst weit nach den beobachteten Tagen',
  assumedForHeat: 'Angenommen für Wärme',
  assumedForDays: 'Angenommen für Tage',
  fitAicLowerIsBetter: 'Passung (AIC, kleiner ist besser)',
  heatDays: (aic, aic2) => `Wärme ${aic}, Tage ${aic2}`,
  baseTemperatureByLikelihood: 'Basistemperatur nach Likelihood',
  baseTemperatureByRegression: 'Basistemperatur nach Regression',
  cannotBeEstimatedFromThese: 'aus diesen Daten nicht schätzbar',
  thisServiceCannotTellThe: 'Dieser Dienst kennt die Wärme dieser Samen nicht.',
  theHeatIsNotAvailable:
    'Die Wärme ist zurzeit nicht verfügbar, weil die Messwerte nicht lesbar sind. Zum Wiederholen diesen Teil noch einmal öffnen.',
  theHeatCannotBeShown: (message) => `Die Wärme kann nicht gezeigt werden: ${message}`,

  // likelihood.js
  highestAtThoseAboveThe: (best) => `Am höchsten bei ${best}; die über der Linie passen auch zu den Zählungen.`,
  theCurveIsTooFlat: 'Die Kurve ist zu flach oder zu einseitig für eine Basistemperatur.',
  howWellEachBaseTemperature: 'Wie gut jede Basistemperatur zu den Zählungen passt',
  baseTemperature: (unitName) => `Basistemperatur, ${unitName}`,
  best: 'am besten',
  theHigherTheBetterThat: (base, part) =>
    `Je höher die Kurve, desto besser passt diese Basis zu allen Zählungen. Was über der gestrichelten Linie liegt, ist nicht ausgeschlossen (95 %). Gepunktet: die benutzte Basis, ${base}. ${part}`,
  likelihoodOfEachBaseTemperature: 'Likelihood jeder Basistemperatur',
  base: 'Basis',
  logLikelihood: 'Log-Likelihood',
  impossible: 'unmöglich',

  // lot-form.js
  species: 'Art',
  addTheLot: 'Partie hinzufügen',
  seedsGathered: 'Gesammelte Samen',
  gatheredOn: 'Gesammelt am',
  gatheredFrom: 'Gesammelt wo',
  theGround: 'am Boden',
  thePlant: 'an der Pflanze',
  notKnown: 'nicht bekannt',
  howKeptOptional: 'Lagerung (freiwillig)',
  forInstanceMoistSand5: 'Zum Beispiel: feuchter Sand, 5 °C.',
  someTreesAreProtectedAnd:
    'Manche Bäume sind geschützt, und das Sammeln kann eine Erlaubnis brauchen. Vor dem Sammeln die Eigentümer des Grundstücks fragen und die Rechtslage prüfen.',
  nameOptional: 'Name (freiwillig)',
  accessionNumber: 'Akzessionsnummer (freiwillig)',
  theNumberInTheSeed: 'Die Nummer im Verzeichnis einer Saatgutbank.',
  theLotIsIn: 'Die Partie ist eingetragen.',

  // names-sheet.js
  names: 'Namen',
  emptyForNone: 'Ein leeres Feld bedeutet: kein Name.',
  nameOfTheSowing: 'Aussaat',
  nameOfLot: (lot) => `Saatgutpartie ${lot}`,
  nameOfGroup: (group, container) => `Gruppe ${group}, in ${container}`,

  // photo.js
  thisBrowserCannotReadThat: 'Dieser Browser kann diese Datei nicht als Bild lesen.',
  thePictureCannotBeMade: 'Das Bild lässt sich nicht klein genug machen.',
  pictureOptional: 'Bild (freiwillig)',
  picture: (words) => `Bild: ${words}`,
  newPicture: 'Neues Bild',
  addAPicture: 'Bild hinzufügen',

  // record.js
  whatNext: 'Wie weiter',
  howTheyCameUp: 'Wie sie gekeimt sind',
  seedsToGatherNextTime: 'Samenbedarf fürs nächste Mal',
  theRecord: 'Die Einträge',
  indicesForPublications: 'Kennzahlen für Veröffentlichungen',
  tooFew: 'zu wenige',
  halfTooFar:
    'die Hälfte würde erst nach mehr als der doppelten Zeit der letzten Kontrolle keimen: zu weit jenseits der Daten für eine Schätzung',
  noCurveCanBeFitted: (reason) => `An diese Zählungen lässt sich keine Kurve anpassen: ${reason}.`,
  inTheEndGerminateThe: (finalFraction) =>
    `Am Ende keimen ${finalFraction}; das Intervall gilt über alle Kurven, die etwa so gut passen.`,
  theseCountsDoNotShow:
    'Diese Zählungen zeigen noch nicht, wie viele am Ende keimen: Diese Kurve nimmt an, dass alle keimen.',
  halfOfThoseThatEver: (median) => `die Hälfte derer, die je keimen, bis Tag ${median}`,
  halfOfThoseThatEver2:
    'die Hälfte derer, die je keimen, erst nach der letzten Kontrolle; das ist geraten, über das Gesehene hinaus',
  bestOfSixFittedCurves: (name, half, final) => `Beste von sechs angepassten Kurven: ${name}; ${half}. ${final}`,
  groupsAgainstEachOther: 'Gruppen im Vergleich',

  // scanned.js
  noLivingSeedsInIt: 'Keine lebenden Samen darin.',
  thereIsNoSuchContainer: 'Diesen Behälter gibt es nicht.',
  group4: (speciesName, id, counted) => `${speciesName}, Gruppe ${id}, ${counted}`,

  // seed-words.js
  mould: 'Schimmel',
  dead: 'tot',
  empty: 'leer',
  eaten: 'gefressen',
  takenOut: 'entnommen',
  other: 'anderes',
  n95To3: (low, high) => `95 %: ${low} bis ${high} %`,
  day2: (days) => `Tag ${days}`,
  toDays: (low, high) => `${low} bis ${high} Tage`,
  groupWithName: (group, name) => `${group} „${name}“`,
  checkOverdueByDays: (part) => `Kontrolle seit ${part} Tagen überfällig`,
  checkOverdueByADay: 'Kontrolle seit einem Tag überfällig',
  checkDueToday: 'Kontrolle heute fällig',
  checkDueTomorrow: 'Kontrolle morgen fällig',
  checkDueInDays: (days) => `Kontrolle in ${days} Tagen fällig`,
  notLookedAtYet: (counted) => `${counted} noch nicht angesehen`,
  sownNotLookedAtYet: (counted) => `${counted} gesät, noch nicht angesehen`,
  ofGerminated: (germinated, looked, germinated2, others) =>
    `${germinated} von ${looked} gekeimt: ${germinated2}${others}`,
  theSpeciesProfileGivesUp: (giveUpDays, dayWords) =>
    `Bei dieser Art ist nach ${dative(giveUpDays)} Schluss; heute ist ${dayWords}.`,
  commonPracticeIsToGive: (dayWords) => `Üblich ist, nach etwa sechs Wochen aufzuhören; heute ist ${dayWords}.`,
  doneNoSoundUngerminatedSeed: 'Fertig: Kein gesunder ungekeimter Samen ist übrig.',
  theCountsCannotTellYet: 'Aus den Zählungen ist noch nicht zu erkennen, ob noch mehr keimen.',
  tooFewGerminatedSoFar:
    'Bisher sind zu wenige gekeimt, oder die Kontrollen zeigen noch nicht, dass die Kurve abflacht.',
  atLeastOneMoreWithin: (soon, soonLimits) =>
    `Mindestens ein weiterer keimt in der Woche nach der letzten Kontrolle: ${soon} (${soonLimits}).`,
  withThoseAmongThe: (notLookedAt) => `, mit denen unter den ${notLookedAt}`,
  atLeastOneMoreEver: (ever, everLimits, expectedMore, remaining, part) =>
    `Mindestens ein weiterer keimt überhaupt noch: ${ever} (${everLimits}); zu erwarten sind etwa ${expectedMore} weitere von ${remaining} übrigen${part}.`,
  assumed: (assumption) => `Angenommen: ${assumption}`,
  over99: 'über 99 %',
  under1: 'unter 1 %',
  youCanStopItIs: 'Aufhören ist möglich: Dass noch mehr keimen, ist unwahrscheinlich.',
  goOnMoreAreLikely: 'Weitermachen: Innerhalb einer Woche keimen wahrscheinlich noch welche.',
  goOnIfYouHave: 'Mit Geduld weitermachen: Wahrscheinlich keimen noch welche, aber kaum innerhalb einer Woche.',
  openTheCountsLeaveIt: 'Offen: Die Zählungen zeigen nicht sicher, ob noch mehr keimen.',
  moreArePossibleButNot:
    'Dass noch mehr keimen, ist möglich, aber nicht wahrscheinlich: weitermachen oder aufhören, beides geht.',
  days: (number) => `${number} Tage`,
  firstGerminated: 'Zuerst gekeimt',
  foundOn: (firstTime) => `gefunden an ${firstTime}`,
  meanGerminationTime: 'Mittlere Keimzeit',
  betweenTheChecksByThe: (meanBetween, meanTime) =>
    `${meanBetween}, zwischen den Kontrollen (${meanTime} nach dem Tag der Kontrolle)`,
  halfOfThoseGerminated: 'Die Hälfte der gekeimten',
  halfOfThoseSown: 'Die Hälfte der gesäten',
  notReached: 'nicht erreicht',
  spreadStandardDeviation: 'Streuung (Standardabweichung)',
  speedMaguire: 'Geschwindigkeit (Maguire)',
  seedsADay: (speed) => `${speed} Samen je Tag`,
  rateIndex: 'Ratenindex',
  aDay2: (rateIndexPercent) => `${rateIndexPercent} % je Tag`,
  synchrony0To1: 'Gleichzeitigkeit (0 bis 1)',

  // seeds-to-gather.js
  shownAfterTheFirstCheck: 'Wird nach der ersten Kontrolle gezeigt.',
  sowAbout: (counted) => `Etwa ${counted} säen`,
  pottedOn3: 'getopft',
  forWithNineChancesIn: (wanted, part) =>
    `: Dann sind in neun von zehn Fällen mindestens ${wanted} ${part}. Angenommen: Die nächste Partie gleicht der bisherigen; ihr Anteil ist so unsicher, wie das bisherige Ergebnis ihn lässt (Beta-Binomial, Prior von Jeffreys).`,
  fromThisSowingAloneOf: (hits, part, sown) => `Allein aus dieser Aussaat: ${hits} von ${sown} angesehenen ${part}.`,
  seedlingsWantedInPots: 'Gewünschte Sämlinge in Töpfen',
  germinatedSeedsWanted: 'Gewünschte gekeimte Samen',
  howMany: 'Wie viele?',

  // sheet.js
  oneFewer: 'Einer weniger:',
  oneMore: 'Einer mehr:',
  writeItDown: 'Eintragen',
  cancel: 'Abbrechen',
  remarkOptional: 'Bemerkung (freiwillig)',
  notNowButAt: 'Nicht jetzt, sondern am',

  // sources.js
  seedsOfOneLotOn:
    'Samen einer Partie auf zwei Wärmequellen werden innerhalb der Partie verglichen, über alle Partien und Saisons.',
  itTakesOneLotWith:
    'Nötig ist eine Partie mit Samen auf zwei Wärmequellen, auf jeder einmal kontrolliert. Gruppen, die auf eine andere Quelle kamen, geteilt oder zusammengelegt wurden, zählen nicht.',
  containerCount: { one: 'Behälter', other: 'Behälter' },
  ofWord3: (germinated, sown, counted) => `${germinated} von ${sown} (${counted})`,
  theLotsCounted: 'Die gezählten Partien',
  germinatedByLotAndHeat: 'Gekeimt, nach Partie und Wärmequelle',
  lot3: (name, lot) => `${name} (Partie ${lot})`,

  // sowing-cards.js
  sowing: (name, id) => `${name}, Aussaat ${id}`,
  lotNumber: (lot) => `Partie ${lot}`,
  whatNextCurveRecord: 'Wie weiter, Kurve, Einträge',
  undoTheLastEntry: 'Letzten Eintrag rückgängig machen',
  sownDay: (moment, floor) => `Gesät ${moment}, Tag ${floor}`,
  nowUngerminatedGerminated: (number, number2) => `Jetzt: ${number} ungekeimt, ${number2} gekeimt, `,
  pottedOnAliveCulled: (number, alive, number2) => `${number} getopft (${alive} am Leben), ${number2} ausgesondert`,
  group5: (word, id) => `${word}, Gruppe ${id}`,
  move: 'Umsetzen',
  seedlings: 'Sämlinge',
  groupUngerminatedGerminated2: (id, ungerminated, germinated) =>
    `Gruppe ${id}: ${ungerminated} ungekeimt, ${germinated} gekeimt`,
  group6: (id, counted) => `Gruppe ${id}: ${counted}`,
  entryCount: { one: 'Eintrag', other: 'Einträge' },
  waitingToBeSent: (counted) => `${counted} noch nicht gesendet.`,

  // sowing-form.js
  container: 'Behälter',
  container2: (number) => `Behälter ${number}`,
  seedsInIt: 'Samen darin',
  seedsInContainer: (number) => `Samen in Behälter ${number}`,
  writeTheSowingDown: 'Aussaat eintragen',
  seedLot: 'Saatgutpartie',
  alsoIntoAnotherContainer: 'Auch in einen weiteren Behälter',
  sownAtEmptyNow: 'Gesät am (leer: jetzt)',
  sownTheNextCheckIs: 'Gesät. Die nächste Kontrolle steht oben.',

  // species-form.js
  baseTemperature2: 'Basistemperatur',
  belowThisSeedsGainNothing: 'Darunter zählt keine Wärme.',
  bestTemperature: 'Beste Temperatur',
  theyGerminateFastestAtIt: 'Dabei keimen sie am schnellsten.',
  ceilingTemperature: 'Obergrenze der Temperatur',
  aboveThisNoMoreThan: 'Darüber zählt Wärme so, als wäre es genau so warm.',
  firstGerminatesAfterDays: 'Erste Keimung nach (Tage)',
  tellsWhenTheFirstCheck: 'Bestimmt, wann die erste Kontrolle fällig ist.',
  usuallyGivenUpAfterDays: 'Gewöhnlich aufgegeben nach (Tage)',
  sixWeeksAreCommonPractice: 'Sechs Wochen sind üblich.',
  usuallyGerminates: 'Gewöhnlich keimen (%)',
  ofTheSeedsSown: 'Von den gesäten Samen.',
  pottedOnWithRootsOf: 'Getopft mit Keimwurzeln von (cm)',
  seedKeepsDays: 'Keimfähig (Tage)',
  daysAfterGatheringTheLot: 'Tage nach dem Sammeln. Die Partie zeigt die verbleibenden Tage.',
  keepTheChanges: 'Änderungen speichern',
  addTheSpecies: 'Art hinzufügen',
  name: 'Name',
  whatIsUsualForIt: 'Was bei ihr üblich ist (alles freiwillig)',
  whereNewFiguresComeFrom: 'Woher neue Zahlen kommen',
  ownResults: 'eigene Ergebnisse',
  kept: 'Gespeichert.',
  added: (name) => `Hinzugefügt: ${name}.`,
  isNotANumber: (title, raw) => `${title}: „${raw}“ ist keine Zahl.`,
  commonPractice: 'übliche Praxis',

  // start.js
  aContainer: 'Ein Behälter',
  makeTheContainer: 'Behälter anlegen',
  made: (name) => `Angelegt: ${name}.`,
  aSpecies: 'Eine Art',
  aSeedLot: 'Eine Saatgutpartie',
  aSowing: 'Eine Aussaat',
  newOrChangeOne: 'Neu, oder eine ändern',
  nothingSownYet: 'Noch nichts gesät',
  addMore: 'Mehr hinzufügen',
  fourStepsToTheFirst: 'Vier Schritte bis zur ersten Zählung. Eine vorhandene Art braucht keinen neuen Eintrag.',
  none: 'keine',
  thereAlready: (join) => `Schon da: ${join}.`,
  aNewSpecies: 'Eine neue Art',
  known: (count) => `${count} bekannt`,
  lotOfLeft: (name, id, left, seeds, germinateIfSownNow) =>
    `${name}, Partie ${id}: noch ${left} von ${seeds}${germinateIfSownNow}`,
  moreDayCount: { one: 'weiterer Tag', other: 'weitere Tage' },
  keeps: (counted) => `, keimfähig: ${counted}`,
  dayCount: { one: 'Tag', other: 'Tage' },
  keptTooLongBy: (counted) => `, zu lange gelagert: ${counted}`,

  // unsent-list.js
  refusedSince: (refused) => `: abgelehnt, denn ${refused}`,
  discard: 'Verwerfen',
  waitingToBeSent2: (counted) => `${counted} noch nicht gesendet`,
  notTakenByTheService: 'Vom Dienst nicht angenommen',

  // viability-words.js
  wouldGerminateIfSownNow: (fraction) => `, ${fraction} würden bei Aussaat jetzt keimen`,
  notFinishedYet: (counted) => `${counted} noch nicht zu Ende`,
  howLongSeedKeepsCannot: (reason) => `Wie lange Samen keimfähig bleiben, lässt sich noch nicht schätzen: ${reason}.`,
  notCounted: 'Nicht gezählt',
  notBetweenAndDaysThose: (days, days2) => `nicht zwischen ${days} und ${days2} Tagen, den bisherigen Lagerzeiten`,
  afterDays95To: (halfDays, number, number2) => `nach ${halfDays} Tagen (95 %: ${number} bis ${number2})`,
  fewerGerminateTheLongerSeed: (fraction, days, fraction2, days2) =>
    `Je länger die Lagerung, desto weniger keimen: ${fraction} nach ${dative(days)}, ${fraction2} nach ${dative(days2)}.`,
  halfGerminate: 'Die Hälfte keimt',
  counted: 'Gezählt',
  groupsDifferByMoreThan: 'Gruppen unterscheiden sich stärker als durch Zufall; das macht die Intervalle breiter.',
  groupsDifferByNoMore: 'Gruppen unterscheiden sich nicht stärker als durch Zufall.',
  daysRunFromGatheringTo: (part) => `Tage zählen vom Sammeln bis zur Aussaat, egal wie gelagert wird. ${part}`,

  // warmth-view.js
  warmthTitle: (unitName) => `Temperatur der Behälter, ${unitName}`,
  warmthOnAverage: (name, temperature) => `${name}: im Mittel ${temperature} bis zur letzten Kontrolle.`,
  halfAtHeat: (heat) => `Nach der angepassten Kurve braucht die Hälfte der keimenden Samen ${heat}.`,
  halfAtDay: (name, day) =>
    `In ${name} hatte nach der angepassten Kurve die Hälfte der keimenden Samen am Tag ${day} genug Wärme.`,
  warmthKey: (base) =>
    `Quer gestrichelt: ${base}, ab da zählt Wärme. Senkrecht gepunktet: eine Kontrolle. Senkrecht dick: die Hälfte, nach der angepassten Kurve.`,

  // warmth-load.js
  warmthFirstOf: (most, all) =>
    `Gezeichnet sind die ersten ${most} von ${all} verschiedenen Wegen durch Behälter; mehr Linien würden einander verdecken.`,

  // writing.js
  theEntryHasNotArrived: 'der Eintrag ist noch nicht angekommen',
  thePictureWasNotKept: (lost) =>
    ` Das Bild wurde nicht gespeichert: ${lost} Das Bild später bei den Einträgen hinzufügen.`,
  keptOnThisDeviceIt: (pictureWords) =>
    `Auf diesem Gerät gespeichert. Es wird gesendet, sobald der Dienst antwortet.${pictureWords}`,
  writtenDown: (what, pictureWords) => `Eingetragen. ${what}.${pictureWords}`,
  undo: 'Rückgängig',

  // round.js
  checkCount: { one: 'Kontrolle', other: 'Kontrollen' },
  startARound: (checks) => `Rundgang beginnen: ${checks}`,
  goOnWithRound: (checks) => `Rundgang fortsetzen: noch ${checks}`,
  endTheRound: 'Rundgang beenden',
  placeInRound: (number, all) => `${number} von ${all}`,
  skip: 'Überspringen',
  doneNext: 'Fertig, weiter',
  done: 'Fertig',
  stopHere: 'Hier aufhören',
  roundFinished: 'Rundgang fertig',
  roundStopped: 'Rundgang unterbrochen',
  writtenInRound: (checks) => `${checks} eingetragen.`,
  notReachedInRound: (checks) => `${checks} nicht erreicht.`,
  skippedThese: 'Übersprungen:',
  checkTheSkipped: 'Übersprungene kontrollieren',
  closeTheRound: 'Schließen',

  // why-words.js
  weekAfterCheck: 'eine Woche nach der letzten Kontrolle',
  weekAfterSowing: 'eine Woche nach der Aussaat',
  potOn: (germinated) => `${germinated} gekeimt, zu topfen`,
  potOnWithRoots: (germinated, cm) => `${germinated} gekeimt, zu topfen mit Keimwurzeln von ${cm} cm`,
  usuallyAfterDays: (days) => `die ersten keimen gewöhnlich nach ${dative(days)}`,
  expectedAfterDays: (days) => `bei den bisherigen Temperaturen keimen die ersten nach etwa ${dative(days)}`,
  butCheckForMould: (days) => `, aber nach ${dative(days)} auf Schimmel prüfen`,
  usualDaysOver: (days) => `; die übliche Zeit ist vorbei (${days}): weitermachen oder aufhören?`,
  usuallyGivenUp: (days) => `nach ${dative(days)} gibt man die übrigen Samen gewöhnlich auf`,
  noSoundSeedsRemain: 'kein gesunder ungekeimter Samen ist übrig',
  tooFewForTheHeat:
    'zu wenige Samen sind gekeimt, oder bei zu wenigen Kontrollen, um zu schätzen, wie viel Wärme die anderen brauchen',
  lastDayHardlyMeasured: 'Messwerte decken weniger als die Hälfte des letzten Tages im Behälter dieser Samen ab',
  hardlyEverWarmer: 'der Behälter ist kaum je wärmer als die Basistemperatur',
  lessThanATenth: 'von den übrigen Samen keimt wahrscheinlich weniger als ein Zehntel',
  onlyOneGroup: 'es gibt nur eine Samengruppe',
  nearlyTheSameHeat: 'die Samengruppen bekamen je Tag fast gleich viel Wärme',
  heatTooUncertain: 'die Wärme ist zu unsicher',
  bothModelsFit: 'beide Modelle passen etwa gleich gut',
  heatOrDaysNotShown: (why) =>
    `Aus diesen Daten geht nicht hervor, ob die Zählungen der Wärme oder den Tagen folgen: ${why}.`,
  noBaseUnidentified: 'bei keiner Basistemperatur im Bereich ergeben die Zählungen, wie viel Wärme die Samen brauchen',
  noBaseEvery:
    'jede Basistemperatur im Bereich passt zu den Zählungen; Aussaaten bei verschiedenen Temperaturen sind nötig',
  noBaseRangeEnd: 'am besten passt eine Temperatur am Rand des Bereichs der Basistemperaturen',
  noBaseTooCold: 'keine Gruppe mit bekannten Temperaturen stand warm genug, um die Basistemperatur zu schätzen',
  fewTemperatures: (needed, apart, found) =>
    `nötig sind Samengruppen bei ${needed} oder mehr Temperaturen, mindestens ${apart} auseinander, deren Zählungen die Zeit bis zur halben Keimung ergeben; bisher sind es ${found}`,
  rateDoesNotRise: 'die Samen keimen bei höherer Temperatur nicht schneller',
  fewSowings: (neededSowings, neededDays, sowings, days) =>
    `nötig sind mindestens ${neededSowings} beendete Aussaaten mit mindestens ${neededDays} verschiedenen Lagerzeiten (in Tagen seit dem Sammeln); bisher sind es ${sowings} mit ${days}`,
  noSlope:
    'alle Samen oder keine keimten, oder die Keimung fällt zwischen zwei Tagen von allen auf keine; die Steigung ist nicht zu schätzen',
  noFall: 'diese Aussaaten zeigen nicht, dass mit den Tagen seit dem Sammeln weniger keimen',
  assumedEverySeed: (why) =>
    `die Anpassung nimmt an, dass am Ende jeder Samen keimt, denn der Keimanteil ließ sich nicht schätzen: ${why}`,
  assumedForEnds: (why) =>
    `für die Enden des Intervalls nimmt die Anpassung an, dass am Ende jeder Samen keimt, denn der Keimanteil ließ sich nicht schätzen: ${why}`,
  prospectAssumes:
    'Angenommen: Die übrigen Samen sind gesund und keimen nach derselben Kurve wie die früheren. Manche keimen vielleicht nie; ihr Anteil wird geschätzt. Die Zeiten der anderen folgen einer Lognormal-, Loglogistik- oder Weibull-Verteilung; jede zählt so viel, wie gut sie passt. Die Temperatur bleibt, wie sie war. ',
  onlyTheseCounts: 'Verwendet werden nur die Zählungen dieser Aussaat.',
  pastSowingsToo: (counted) =>
    `Angenommen wird, dass die Kurve denen früherer Aussaaten (${counted}) ähnelt, je nachdem, wie gut diese übereinstimmen; dann wird sie an die Zählungen dieser Aussaat angepasst.`,

  // no-fit.js
  noFitNoCheck: 'nach dem Beginn wurde keine Kontrolle eingetragen; mindestens eine ist nötig',
  noFitNoneGerminated: 'noch ist kein Samen gekeimt; Zählungen gekeimter Samen sind nötig',
  noFitEverySeed: 'jeder Samen ist gekeimt, also ist der Keimanteil 1; es gilt die Anpassung, die ihn nicht schätzt',
  noFitOnBound:
    'diese Zählungen zeigen nicht, dass manche Samen nie keimen, denn der geschätzte Keimanteil ist 1; es gilt die Anpassung, die ihn nicht schätzt',
  noFitFlat: 'mehrere Kurven passen gleich gut zu diesen Zählungen; Zählungen bei weiteren Kontrollen sind nötig',
  noFitSameChecks:
    'alle gekeimten Samen wurden zwischen denselben zwei Kontrollen gefunden, also ist die Streuung ihrer Zeiten unbekannt; öfter kontrollieren, solange Samen keimen',
  noFitNeighbouringChecks:
    'alle gekeimten Samen wurden in benachbarten Abständen zwischen Kontrollen gefunden, also lassen sich weder ihre Zeit noch deren Streuung schätzen; öfter kontrollieren, solange Samen keimen',
  noFitEndlessSpread: 'die geschätzte Streuung wächst ohne Grenze; Zählungen bei weiteren Kontrollen sind nötig',
  noFitNoHeat:
    'manche Samen keimten, obwohl die Messwerte keine Wärme über der Basistemperatur zeigen: Die Basistemperatur ist zu hoch, oder die Messwerte zeigen nicht, wie warm die Samen waren',
  noFitUnmeasured: 'weniger als die Hälfte der Zeit, in der die Samen lagen, ist durch Messwerte abgedeckt',
  noFitBeyond:
    'der geschätzte Median liegt über dem Doppelten der größten Wärme bei einer Kontrolle, zu weit jenseits der Daten für eine Schätzung',
};
