// What the sender of an unreadable message should change. Pure.

const EXAMPLE = 'Compare topic and payload with the example in step 1 of the guide on the Shelf.';
const QUANTITIES =
  'Use the names temperature, humidity, light, co2, mediumMoisture and battery, with plain numbers in °C, %, lux, ppm, % and V.';

/** By the code that the service gives with each reason. */
export const REMEDIES = {
  topic: 'Publish to the root topic, a slash and the sensor’s name. Names have 1 to 64 letters, digits, _ or -.',
  'unmapped-topic': 'Publish below the root topic, or add a mapping rule for this topic.',
  'forbidden-topic': 'Publish to a topic that this account may use, or change its rights in the settings.',
  empty: 'Let the device send only when it has measured.',
  'too-large': 'Send fewer readings in one message.',
  encoding: 'Send plain text in UTF-8.',
  json: 'Send one complete JSON object. If the payload is cut short, enlarge the message buffer of the device.',
  'no-quantity': QUANTITIES,
  'not-a-number': 'Send plain numbers with a decimal point, without a unit.',
  'out-of-range': 'Check the sensor’s wiring and unit. A loose wire often reads as 85 °C or −127 °C.',
  time: 'Set the device’s clock. Or send “age”, the seconds since measuring, instead of “at”.',
  retained: 'Publish without the “retain” flag. The broker sends a retained message again later, as if it were new.',
  'service-clock': 'Set the clock of the machine on which this service runs.',
  button: 'Send the minutes from 0 to 240 as a plain number, or an empty payload for 10 minutes.',
  'sensor-limit': 'Remove counters and times from sensor names, or place the sensor in a container.',
  store: 'Check the clock and the sending interval of the device.',
  other: EXAMPLE,
};

export const remedyFor = (reject) => REMEDIES[reject.code] ?? EXAMPLE;
