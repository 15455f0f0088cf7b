// The words of a reading that a rule gives. Pure.

import { quantityOf } from '../shared/fault-words.js';
import { inSentence } from '../shared/text.js';
import { fieldNumber } from '../shared/typed.js';

/** Such as "jar-1: temperature 30 °C, battery 3.9 V". The first unit of a quantity is the stored one. */
export function readingWords({ sensor, values }, units) {
  const unitOf = (key) => units.find(({ quantity }) => quantity === key)?.units[0] ?? '';
  const shown = Object.entries(values).map(([key, value]) =>
    `${inSentence(quantityOf(key))} ${fieldNumber(value)} ${unitOf(key)}`.trim(),
  );
  return `${sensor}: ${shown.join(', ')}`;
}
