// What the sender of an unreadable message should change. Pure.

/** What the sender should change, from the reason the service gives. */
export function remedyFor(reject) {
  const reason = reject.reason.toLowerCase();
  const found = REMEDIES.find(([pattern]) => pattern.test(reason));
  return found ? found[1] : 'Compare topic and payload with the example in step 1 of the guide on the Shelf.';
}

const REMEDIES = [
  [
    /sensor's topic|sensor’s topic/,
    'Publish to the root topic, a slash and the sensor’s name; for anything else, add a mapping rule to the configuration.',
  ],
  [
    /sensor name|sensor's name|name of the sensor/,
    'Rename the sensor in its own settings: 1 to 64 letters, digits, _ or -, and no spaces.',
  ],
  [
    /retain/,
    'Publish without the “retain” flag: the broker keeps such a message and hands it out later as if it were new.',
  ],
  [
    /no quantity|quantity is|empty array/,
    'Use the names temperature, humidity, light and battery, with plain numbers in °C, %, lux and V.',
  ],
  [/empty payload/, 'Let the device send only when it has measured.'],
  [/utf-8/, 'Send plain text in UTF-8; binary payloads need a mapping rule and a device that can send text.'],
  [
    /\bage\b|\bat\b.*(time|clock|instant|future|1970)|set the (clock|sensor's clock)/,
    'Set the device’s clock, or send “age”, the seconds since measuring, in place of “at”.',
  ],
  [/topic/, 'See in the configuration which topics are read, and add a mapping rule for this one.'],
  [
    /json|unexpected|parse|syntax/,
    'Send a complete JSON object. A payload cut short often means that the device’s message buffer is too small.',
  ],
  [/too (large|long|big)|size/, 'Send fewer readings in one message.'],
  [
    /outside|range|implausible|plausible|power-on|fault/,
    'The sensor reports a fault or a wrong unit. Check wiring and unit; 85 °C and −127 °C are typical of a loose wire.',
  ],
  [/quantit/, 'Use the names temperature, humidity, light and battery, in °C, %, lux and V.'],
  [/number|numeric/, 'Send plain numbers with a decimal point, without a unit.'],
];
