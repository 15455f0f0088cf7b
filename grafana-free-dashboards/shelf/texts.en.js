// The English texts of this page.

export default {
  // connect.js
  thisService: 'this service',
  yourBroker: 'your broker',
  letItSendMqttMessages: (part) => `Let it send MQTT messages to ${part}:`,
  hostAnyOf: 'Host (any of)',
  host: 'Host',
  port: 'Port',
  topic: 'Topic',
  sensorName: 'sensor name',
  lettersDigitsAnd: ' – letters, digits, _ and -',
  payload: 'Payload',
  temperatureInDegreescHumidity: 'Temperature in °C, humidity in %, light in lux; leave out what it does not measure. ',
  whatSensorsSend: 'What sensors send',
  onThisMachine: 'on this machine',
  fromAnyComputer: 'from any computer',
  toTryIt: (part) => `. To try it ${part}:`,
  copy: 'Copy',
  cellsAndHeat: 'Cells and heat. ',
  keepLithiumCellsOutsideThe:
    'Keep lithium cells outside the container: heat and water can make them leak, burst or burn. Bring only the probe inside.',
  eachSensor: 'Each sensor',
  aSensorOnAnotherMachine: 'A sensor on another machine',
  needsAnAccount: (who) => `${who} needs an account: `,
  makeOne: 'make one',

  // guide.js
  close: 'Close',
  connectASensor: 'Connect a sensor',
  makeAContainer: 'Make a container',
  aBagBoxJarOr:
    'A bag, box, jar or tray that holds seeds. The figures suit many warm-germinating seeds; change them to yours.',
  placeTheSensor: 'Place the sensor',
  tellWhichSensorLiesIn:
    'Tell which sensor lies in which container. One sensor outside tells the temperature of the room.',
  nothingOnTheShelfYet: 'Nothing on the shelf yet',
  addConnectMove: 'Add, connect, move',
  threeStepsAndTheFirst: 'Three steps and the first container is watched. Take them in any order.',
  done: ' ✓ done',
  isNow: (sensor, placeWords) => `${sensor} is now ${placeWords}.`,
  itsValuesAppearOnThe: ' Its values appear on the Shelf as they come.',

  // heard.js
  heardSoFar: 'Heard so far',
  nothingYetThisListFills: 'Nothing yet. This list fills by itself as messages arrive.',
  cameButCouldNotBe: 'Came, but could not be read',
  allThatCouldNotBe: 'All that could not be read',

  // new-container.js
  makeTheContainer: 'Make the container',
  made: 'Made: ',
  nextPlaceASensorIn: '. Next: place a sensor in it.',

  // placement.js
  sensor: 'Sensor',
  goesTo: 'Goes to',
  itHasBeenThereFor: 'It has been there for a while',
  inThisPlaceSince: 'In this place since',
  readingsFromThenOnCount: 'Readings from then on count for the new place. Empty: from now on.',
  outsideToMeasureTheRoom: 'Outside, to measure the room',
  nowhereForNow: 'Nowhere for now',
  waitingForASensor: 'Waiting for a sensor',

  // room.js
  room: 'Room: – ',
  noSensorIsPlacedOutside: '(no sensor is placed outside)',
  roomLast: 'Room: –, last ',
  room2: 'Room: ',

  // unplaced.js
  place: (sensor) => `Place ${sensor}`,
  placeIt: 'Place it',
};
