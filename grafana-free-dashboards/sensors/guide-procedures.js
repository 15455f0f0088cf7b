// The procedures of the guided calibration. Pure.

import { texts } from './texts.js';

/**
 * Shortest times in place, min: common practice, no source.
 * @property asks what the grower enters before the value is taken
 * @property expected a reading further from this value means that the sensor is not in place
 * @property next key of the procedure that completes this one
 */
export const PROCEDURES = [
  {
    key: 'icePoint',
    title: texts.icePointTemperatureAt0,
    quantity: 'temperature',
    minutes: 10,
    expected: { value: 0, within: 5 },
    prepare: [
      texts.fillACupWithCrushed,
      texts.putTheSensorIntoA + texts.mainsWiringDryAndAway,
      texts.stirNowAndThenAnd,
    ],
    asks: [],
    next: 'warm',
  },
  {
    key: 'warm',
    method: 'comparison',
    title: texts.comparisonTemperatureNear30,
    quantity: 'temperature',
    minutes: 20,
    prepare: [texts.putABetterThermometerBeside, texts.leaveTheLidClosedRead],
    asks: ['trueValue', 'uncertainty'],
    next: 'icePoint',
  },
  {
    key: 'salt75',
    method: 'saturatedSalt',
    salt: 'sodiumChloride',
    title: texts.saltJarHumidityAt75,
    quantity: 'humidity',
    minutes: 720,
    expected: { value: 75, within: 15 },
    prepare: [texts.stirTableSaltWithA, texts.hangTheSensorAboveIt],
    asks: ['saltTemperature'],
    next: 'salt97',
  },
  {
    key: 'salt97',
    method: 'saturatedSalt',
    salt: 'potassiumSulphate',
    title: texts.saltJarHumidityAt97,
    quantity: 'humidity',
    minutes: 720,
    expected: { value: 97, within: 15 },
    prepare: [
      texts.stirPotassiumSulphateWithA + texts.followTheLabelOfThe,
      texts.hangTheSensorAboveIt2 + texts.waterMustNotSettleOn,
    ],
    asks: ['saltTemperature'],
    next: 'salt75',
  },
  {
    key: 'dark',
    title: texts.darkLightAt0Lux,
    quantity: 'light',
    minutes: 1,
    expected: { value: 0, within: 20 },
    prepare: [texts.wrapTheSensorInFoil],
    asks: [],
    next: 'knownLamp',
  },
  {
    key: 'knownLamp',
    title: texts.knownLampLight,
    quantity: 'light',
    minutes: 2,
    prepare: [texts.putALightMeterBeside, texts.letTheLampWarmUp],
    asks: ['trueValue', 'uncertainty'],
    next: 'dark',
  },
];

export const procedureOf = (key) => PROCEDURES.find((one) => one.key === key);
