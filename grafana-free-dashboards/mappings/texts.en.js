// The English texts of this page.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    mappingRules: 'Mapping rules',
    notUnderstood: '← Not understood',
    aRuleReadsTheMessages:
      'A rule reads the messages of devices with a format of their own. <a href="/docs/sensors.html#devices-with-a-format-of-their-own">More</a>',
    askingTheService: 'Asking the service …',
    message: 'Message',
    noMessageIsWaitingFor: 'No message is waiting for a rule. Let the device publish, then look here again.',
    topic: 'Topic',
    chooseTheLevelThatNames: 'Choose the level that names the sensor. <em>Any</em> accepts every name.',
    fields: 'Fields',
    tapAValueThenChoose: 'Tap a value, then choose what it is.',
    reading: 'Reading',
    saveRule: 'Save rule',
    rules: 'Rules',
    thereIsNoRuleYet: 'There is no rule yet.',
  },

  // choice.js
  time: 'Time',
  bytes: 'Bytes',
  order: 'Order',
  highByteFirst: 'High byte first',
  lowByteFirst: 'Low byte first',
  sign: 'Sign',
  neverNegative: 'Never negative',
  canBeNegative: 'Can be negative',
  fromByte: (index) => `From byte ${index}`,
  quantity: 'Quantity',
  unit: 'Unit',
  times: 'Times',
  plus: 'Plus',
  use: 'Use',
  leaveOut: 'Leave out',
  mustBeANumberSuch: (label, text) => `${label} must be a number, such as 0.01, not "${text}".`,

  // lists.js
  read: 'Read',
  inTheSettings: 'in the settings',
  deleteWord: 'Delete',

  // mappings.js
  saved: (rule) => `Saved: ${rule}`,

  // parts.js
  same: 'Same',
  sensor: 'Sensor',
  any: 'Any',
  hexadecimal: 'Hexadecimal',
  base64: 'Base64',
  empty: '(empty)',
  unpackBytesOf: (name) => `Unpack bytes of ${name}`,
  byte: (part) => `byte ${part}`,
  encoding: 'Encoding',
  tapTheFirstByteOf: 'Tap the first byte of a value.',

  // rule.js
  bytesTo: (firstByte, last) => `bytes ${firstByte} to ${last}`,
  theWholePayload: 'the whole payload',
  inWord: (unit) => ` in ${unit}`,
  at: (quantity, place, part) => `${quantity} at ${place}${part}`,

  // trial.js
  noValueIsChosenYet: 'No value is chosen yet.',
};
