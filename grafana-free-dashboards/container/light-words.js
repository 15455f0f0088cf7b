// What to do about light in a container, by the sign that its cause was recognised by. Pure.

import { number } from '../shared/format.js';
import { texts } from './texts.js';

export const LIGHT_ADVICE = {
  opening: () => texts.lightOpening,
  daylight: ({ sunElevation, sunQuarter }) => {
    const quarter = texts.quarters[sunQuarter];
    return texts.lightDaylight(sunElevation < 0 ? texts.sunBelow(quarter) : texts.sunAt(quarter, number(sunElevation)));
  },
  'lamp-at-night': ({ sunElevation }) => texts.lightLampAtNight(number(-sunElevation)),
  'lamp-by-shape': () => texts.lightLampByShape,
  undecided: () => texts.lightUndecided,
  'unknown-site': () => texts.lightUnknownSite,
};

export const lightAdvice = (event) => LIGHT_ADVICE[event.sign](event);
