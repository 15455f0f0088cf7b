// Why counts do not identify a curve, by the code of the service. Pure.

import { texts } from './texts.js';

export const NO_FIT = {
  'no-check': texts.noFitNoCheck,
  'none-germinated': texts.noFitNoneGerminated,
  'every-seed': texts.noFitEverySeed,
  'on-bound': texts.noFitOnBound,
  flat: texts.noFitFlat,
  'same-checks': texts.noFitSameChecks,
  'neighbouring-checks': texts.noFitNeighbouringChecks,
  'endless-spread': texts.noFitEndlessSpread,
  'no-heat': texts.noFitNoHeat,
  unmeasured: texts.noFitUnmeasured,
  beyond: texts.noFitBeyond,
};

/** @param fit that is not identified; empty if it gives no reason */
export const noFitWords = (fit) => NO_FIT[fit?.reasonCode] ?? fit?.reason ?? '';
