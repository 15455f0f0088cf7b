// The German texts of this page.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    heatBench: 'Wärmevergleich',
    comparesContainersOrHeatSources:
      'Vergleicht Behälter oder Wärmequellen über die Stunden, in denen alle gemessen wurden. Prüft auch einen Ort, an dem noch keine Samen stehen: mit einem Sensor in einem Glas Wasser.',
    askingTheService: 'Der Dienst wird gefragt …',
    compare: 'Vergleichen',
    heatSources: 'Wärmequellen',
    containers: 'Behälter',
    overTheLast: 'Über die letzten',
    theSameInFigures: 'Dasselbe in Zahlen',
    tryAPlace: 'Einen Ort prüfen',
    putAJarOfWater:
      'Zwei Tage lang ein Glas Wasser mit einem Sensor in den leeren Behälter stellen und einen zweiten Sensor in den Raum. Dann zeigt sich hier, wie kalt der Raum werden darf.',
    heatMatsLampsAndTheir:
      'Heizmatten, Lampen und ihre Leitungen vom Wasser fernhalten, über einen Fehlerstrom-Schutzschalter (FI) anschließen und mit Tropfschlaufen verlegen; feste Leitungen sind Sache der Elektrofachkraft. Eine selbst gebaute Heizung am ersten Tag nicht allein lassen.',
    container: 'Behälter',
    heatersPowerWIfKnown: 'Leistung der Heizung, W (falls bekannt)',
    workItOut: 'Berechnen',
  },

  // bars.js
  heatADayWithIts: (unitName) => `Wärme je Tag mit 95-%-Intervall, ${unitName}·h`,

  // choice.js
  n3Days: '3 Tage',
  n7Days: '7 Tage',
  n4Weeks: '4 Wochen',
  all: 'Alles',

  // comparison.js
  whereTheWeatherStaysAlike:
    'Bleibt das Wetter ein bis zwei Tage gleich, sind diese Intervalle zu eng: Manche enthalten den wahren Wert nur in 82 von 100 Fällen.',
  eachByItselfFromTo: (from, to, base) =>
    `Jeder für sich, von ${from} bis ${to}. Wärme über ${base}; unter jeder Zahl ihr 95-%-Intervall.`,
  differences: 'Unterschiede',
  overTheHoursThatWere:
    'Über die Stunden, die in beiden gut gemessen sind; unter jeder Zahl ihr 95-%-Intervall. Ein Intervall mit der Null darin zeigt keinen Unterschied.',
  howIsThisWorkedOut: 'Wie wird das berechnet?',
  onlyHoursThatWereWell:
    'Nur Stunden zählen, die in beiden gut gemessen sind. Ein Intervall enthält den wahren Wert in 95 von 100 Fällen.',
  howOften: 'Wie oft?',
  allFigures: 'Alle Zahlen',

  // heat-bench.js
  twoContainersAreNeededFor: 'Für einen Vergleich sind zwei Behälter nötig.',
  chooseTwoToOfOne: (MOST) => `Zwei bis ${MOST} wählen, nur Behälter oder nur Wärmequellen.`,
  comparing: 'Wird verglichen …',

  // profile.js
  throughTheDay: (unitName) => `Im Tageslauf, ${unitName}`,
  meanTemperatureByHourOf: (join) =>
    `Mittlere Temperatur nach Tagesstunde von ${join}; die Zahlen stehen in der Tabelle darunter.`,
  localHoursOf: (timeZone) => `Ortszeit von ${timeZone}.`,
  meanTemperatureInEachHour: 'Mittlere Temperatur in jeder Stunde des örtlichen Tages.',
  hour: 'Stunde',

  // sentences.js
  trialTooShort: (hours) =>
    `Der Versuch ist zu kurz: Ort und Raum wurden ${hours} Stunden lang zugleich gemessen. Mindestens 12 Stunden sind nötig, besser zwei Tage. Prüfen, ob ein Sensor im Raum eingesetzt ist.`,
  trialWithoutFit:
    'Die Temperaturen passen nicht zu einem beheizten Ort in diesem Raum. Prüfen, ob die Sonne ihn erreicht oder ob er geöffnet wurde.',
  hereItIs: (permutationP) => `; hier ist es ${permutationP}`,
  andTheContainerIsThe: (name, name2, count, count2) =>
    `${name} und ${name2}: Der Behälter ist die Einheit. Bei ${count} gegen ${count2} `,
  theSmallestPossiblePermutation: (leastPermutationP, here) =>
    `ist das kleinste mögliche Permutations-p ${leastPermutationP}${here}.`,
  theRoomWasTooSteady: (roomMin, roomMax, unitName) =>
    `Der Raum war zu gleichmäßig, zwischen ${roomMin} und ${roomMax} ${unitName}; darum zeigt sich nicht, wie der Ort ihm folgt. `,
  repeatTheTrialOverColder: 'Den Versuch in kälteren Nächten wiederholen oder den Raum einige Stunden abkühlen lassen.',
  theRoomChangedFromTo: (roomMin, roomMax, unitName, insideMin, insideMax) =>
    `Der Raum änderte sich von ${roomMin} bis ${roomMax} ${unitName}, der Ort nur von ${insideMin} bis ${insideMax} ${unitName}. `,
  eitherSomethingRegulatesItOr:
    'Entweder wird er geregelt, oder er erwärmt und kühlt sich langsam ab: Der Versuch ist zu kurz, um das zu entscheiden. Einige Tage weitermessen.',
  theRoomChangedEnoughTo: (roomMin, roomMax, unitName) =>
    `Der Raum änderte sich genug (${roomMin} bis ${roomMax} ${unitName}), aber der Ort änderte sich auch aus anderen Gründen, etwa durch einen geöffneten Deckel, die Sonne oder eine schaltende Heizung. `,
  leaveItClosedAndShaded:
    'Zwei Tage geschlossen und im Schatten lassen. Schaltet die Heizung, den Sensor jede Minute melden lassen.',
  somethingRegulatesThisPlace: (roomMin, roomMax, unitName) =>
    `Dieser Ort wird geregelt: Er folgt dem Raum (${roomMin} bis ${roomMax} ${unitName}) weniger als mit einer ungeregelten Heizung. `,
  theLowestRoomTemperatureFor:
    'Die niedrigste Raumtemperatur dafür ist nicht bekannt, weil die Heizung nie an ihre Grenze kam.',
  thisPlaceFallsBelowWhen: (limit, degrees, unitName) =>
    `Dieser Ort fällt unter ${limit}, wenn der Raum unter ${degrees} ${unitName} bleibt `,
  n95ToTheSensorsMay: (low, high, sensorError) =>
    `(95 %: ${low} bis ${high}; durch die Sensoren dazu noch ±${sensorError}).`,
  itsMeanInTheTrial: ' Sein Mittel im Versuch lag schon darunter.',
  inARoomAnotherColder: (plain, unitName, one, low, high) =>
    ` In einem noch um ${plain} ${unitName} kälteren Raum dauert das ${one} Stunden (${low} bis ${high}).`,
  ifTheHeatFailsAt: (limit, one, low, high) =>
    ` Fällt die Wärme bei der mittleren Raumtemperatur des Versuchs aus, sinkt er nach ${one} Stunden (${low} bis ${high}) unter ${limit}.`,

  // trial-words.js
  measuredTogether: 'Zusammen gemessen',
  meanInside: 'Mittel innen',
  room: 'Raumluft',
  to: (roomMin, roomMax) => `${roomMin} bis ${roomMax}`,
  timeConstant: 'Zeitkonstante',
  riseAboveTheRoomHeater: 'Übertemperatur zum Raum, Heizung immer an',
  riseAboveTheRoom: 'Übertemperatur zum Raum',
  fallsBelowInARoom: (limit) => `Fällt unter ${limit} in einem Raum unter`,
  afterInARoomColder: (colderBy) => `Dauer bis dahin, in einem noch um ${colderBy} kälteren Raum`,
  afterIfTheHeatFails: 'Dauer bis dahin, wenn die Wärme ausfällt',
  heaterSwitchesOnAndOff: 'Heizung schaltet ein und aus bei',
  and: (onBelow, offAbove) => `${onBelow} und ${offAbove}`,
  heaterIsOn: 'Heizung ist an',
  energyADay: 'Energie je Tag',
  kwh: (number) => `${number} kWh`,
  atMostOnAllDay: (kilowattHoursPerDay) => `höchstens ${kilowattHoursPerDay}: den ganzen Tag an`,
  to2: (kilowattHoursPerDay, low, high) => `${kilowattHoursPerDay} (${low} bis ${high})`,

  // trial.js
  n24Hours: '24 Stunden',
  n48Hours: '48 Stunden',
  n4Days: '4 Tage',
  thePowerMustBeA: 'Die Leistung muss eine Zahl in Watt sein, etwa 20, oder leer bleiben.',

  // words.js
  min: (number) => `${number} min`,
  heatADay: 'Wärme je Tag',
  insideTheBand: 'Innerhalb der Grenzen',
  points: (number) => `${number} Punkte`,
  mean: 'Mittel',
  nightFloor: 'Nächtliches Minimum',
  swingInADay: 'Tagesschwankung',
  tooFewForAnInterval: 'zu wenige für ein Intervall',
  about: (low) => `etwa ${low}`,
  containerCount: { one: 'Behälter', other: 'Behälter' },
  hours: 'Stunden',
  longestOut: 'Am längsten außerhalb',
  warmAgain: 'Wieder warm',
  variesBy: 'Schwankt um',
  spreadOfPlaces: 'Streuung der Orte',
  none: 'keine',
  noOpeningCooledIt: 'keine Öffnung hat ihn abgekühlt',
  notSeenToEnd: (part) => `; ${part} ohne gesehenes Ende`,
  openingCount: { one: 'Öffnung', other: 'Öffnungen' },
  less: (first, second) => `${first} minus ${second}`,
  hoursOfBoth: 'Gemeinsame Stunden',
  sensorsMayMake: 'Durch Sensorfehler',
  leftOutSinceTooFew: (join) => `Nicht mitgerechnet, weil zu wenige Stunden gemessen sind: ${join}.`,
};
