// What the sender of an unreadable message should change. Pure.

import { texts } from './texts.js';

const EXAMPLE = texts.compareTopicAndPayloadWith;
const QUANTITIES = texts.useTheNamesTemperatureHumidity;

/** By the code that the service gives with each reason. */
export const REMEDIES = {
  topic: texts.publishToTheRootTopic,
  'unmapped-topic': texts.publishBelowTheRootTopic,
  'forbidden-topic': texts.publishToATopicThat,
  empty: texts.letTheDeviceSendOnly,
  'too-large': texts.sendFewerReadingsInOne,
  encoding: texts.sendPlainTextInUtf,
  json: texts.sendOneCompleteJsonObject,
  'no-quantity': QUANTITIES,
  'not-a-number': texts.sendPlainNumbersWithA,
  'out-of-range': texts.checkTheSensorsWiringAnd,
  time: texts.setTheDevicesClockOr,
  retained: texts.publishWithoutTheRetainFlag,
  'service-clock': texts.setTheClockOfThe,
  button: texts.sendTheMinutesFrom0,
  'sensor-limit': texts.removeCountersAndTimesFrom,
  store: texts.checkTheClockAndThe,
  other: EXAMPLE,
};

export const remedyFor = (reject) => REMEDIES[reject.code] ?? EXAMPLE;
