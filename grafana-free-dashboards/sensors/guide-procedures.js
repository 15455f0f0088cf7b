// The procedures of the guided calibration. Pure.

/**
 * Shortest times in place, min: common practice, no source.
 * @property asks what the grower enters before the value is taken
 * @property expected a reading further from this value means that the sensor is not in place
 * @property next key of the procedure that completes this one
 */
export const PROCEDURES = [
  {
    key: 'icePoint',
    title: 'Ice point: temperature at 0 °C',
    quantity: 'temperature',
    minutes: 10,
    expected: { value: 0, within: 5 },
    prepare: [
      'Fill a cup with crushed ice. Add cold water until it nearly reaches the top of the ice, and stir.',
      'Put the sensor into a thin bag, without air, and hold it in the middle of the ice. Keep board, battery and ' +
        'mains wiring dry and away from the cup.',
      'Stir now and then, and add ice as it melts.',
    ],
    asks: [],
    next: 'warm',
  },
  {
    key: 'warm',
    method: 'comparison',
    title: 'Comparison: temperature near 30 °C',
    quantity: 'temperature',
    minutes: 20,
    prepare: [
      'Put a better thermometer beside the sensor, both in the warm closet or in a closed box.',
      'Leave the lid closed. Read the thermometer when the sensor has settled.',
    ],
    asks: ['trueValue', 'uncertainty'],
    next: 'icePoint',
  },
  {
    key: 'salt75',
    method: 'saturatedSalt',
    salt: 'sodiumChloride',
    title: 'Salt jar: humidity at 75 %',
    quantity: 'humidity',
    minutes: 720,
    expected: { value: 75, within: 15 },
    prepare: [
      'Stir table salt with a little water to a thick wet slurry, in a jar with a tight lid.',
      'Hang the sensor above it, so that no salt touches it. Close the jar, and keep it at an even temperature.',
    ],
    asks: ['saltTemperature'],
    next: 'salt97',
  },
  {
    key: 'salt97',
    method: 'saturatedSalt',
    salt: 'potassiumSulphate',
    title: 'Salt jar: humidity at 97 %',
    quantity: 'humidity',
    minutes: 720,
    expected: { value: 97, within: 15 },
    prepare: [
      'Stir potassium sulphate with a little water to a thick wet slurry, in a jar with a tight lid. ' +
        'Follow the label of the salt, and use no jar that will hold food again.',
      'Hang the sensor above it, so that no salt touches it. Close the jar, and keep it at an even temperature: ' +
        'water must not settle on the sensor.',
    ],
    asks: ['saltTemperature'],
    next: 'salt75',
  },
  {
    key: 'dark',
    title: 'Dark: light at 0 lux',
    quantity: 'light',
    minutes: 1,
    expected: { value: 0, within: 20 },
    prepare: ['Wrap the sensor in foil, or put it into a closed metal box, so that no light reaches it.'],
    asks: [],
    next: 'knownLamp',
  },
  {
    key: 'knownLamp',
    title: 'Known lamp: light',
    quantity: 'light',
    minutes: 2,
    prepare: [
      'Put a light meter beside the sensor, both facing the lamp, in a room without daylight.',
      'Let the lamp warm up. Keep paper and plastic away from a hot lamp.',
    ],
    asks: ['trueValue', 'uncertainty'],
    next: 'dark',
  },
];

export const procedureOf = (key) => PROCEDURES.find((one) => one.key === key);
