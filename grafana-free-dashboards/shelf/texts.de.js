// The German texts of this page.

export default {
  // connect.js
  thisService: 'diesen Dienst',
  yourBroker: 'den eigenen Broker',
  letItSendMqttMessages: (part) => `MQTT-Nachrichten an ${part} senden lassen:`,
  hostAnyOf: 'Host (einer von)',
  host: 'Host',
  port: 'Port',
  topic: 'Topic',
  sensorName: 'Sensorname',
  lettersDigitsAnd: ' – Buchstaben, Ziffern, _ und -',
  payload: 'Inhalt',
  temperatureInDegreescHumidity: 'Temperatur in °C, Feuchte in %, Licht in lx; weglassen, was er nicht misst. ',
  whatSensorsSend: 'Was Sensoren senden',
  onThisMachine: 'auf diesem Rechner',
  fromAnyComputer: 'von jedem Rechner',
  toTryIt: (part) => `. Zum Ausprobieren ${part}:`,
  copy: 'Kopieren',
  cellsAndHeat: 'Zellen und Wärme. ',
  keepLithiumCellsOutsideThe:
    'Lithiumzellen bleiben außerhalb des Behälters: durch Wärme und Wasser können sie auslaufen, platzen oder brennen. Nur den Fühler hineinlegen.',
  eachSensor: 'Jeder Sensor',
  aSensorOnAnotherMachine: 'Ein Sensor auf einem anderen Rechner',
  needsAnAccount: (who) => `${who} braucht ein Konto: `,
  makeOne: 'anlegen',

  // guide.js
  close: 'Schließen',
  connectASensor: 'Sensor verbinden',
  makeAContainer: 'Behälter anlegen',
  aBagBoxJarOr:
    'Beutel, Kasten, Glas oder Schale mit Samen. Die Zahlen passen für viele Wärmekeimer; sie lassen sich ändern.',
  placeTheSensor: 'Sensor einsetzen',
  tellWhichSensorLiesIn:
    'Angeben, welcher Sensor in welchem Behälter liegt. Ein Sensor außen misst die Temperatur des Raums.',
  nothingOnTheShelfYet: 'Noch nichts im Regal',
  addConnectMove: 'Hinzufügen, verbinden, umsetzen',
  threeStepsAndTheFirst: 'Drei Schritte, und der erste Behälter ist bewacht. In beliebiger Reihenfolge.',
  done: ' ✓ fertig',
  isNow: (sensor, placeWords) => `${sensor} ist jetzt ${placeWords}.`,
  itsValuesAppearOnThe: ' Seine Werte erscheinen im Regal, sobald sie kommen.',

  // heard.js
  heardSoFar: 'Bisher gehört',
  nothingYetThisListFills: 'Noch nichts. Diese Liste füllt sich von selbst, wenn Nachrichten kommen.',
  cameButCouldNotBe: 'Angekommen, aber nicht lesbar',
  allThatCouldNotBe: 'Alles, was nicht lesbar war',

  // new-container.js
  makeTheContainer: 'Behälter anlegen',
  made: 'Angelegt: ',
  nextPlaceASensorIn: '. Als Nächstes einen Sensor einsetzen.',

  // placement.js
  sensor: 'Sensor',
  goesTo: 'Kommt nach',
  itHasBeenThereFor: 'Er ist schon eine Weile dort',
  inThisPlaceSince: 'An diesem Platz seit',
  readingsFromThenOnCount: 'Messwerte von da an zählen für den neuen Platz. Leer: ab jetzt.',
  outsideToMeasureTheRoom: 'Außen, um den Raum zu messen',
  nowhereForNow: 'Vorerst nirgends',
  waitingForASensor: 'Wartet auf einen Sensor',

  // room.js
  room: 'Raum: – ',
  noSensorIsPlacedOutside: '(außen ist kein Sensor)',
  roomLast: 'Raum: –, zuletzt ',
  room2: 'Raum: ',

  // unplaced.js
  place: (sensor) => `${sensor} einsetzen`,
  placeIt: 'Einsetzen',
};
