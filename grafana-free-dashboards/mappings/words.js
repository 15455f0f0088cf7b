// The words of a reading that a rule gives. Pure.

/** Such as "jar-1: temperature 30 °C, battery 3.9 V". The first unit of a quantity is the stored one. */
export function readingWords({ sensor, values }, units) {
  const unitOf = (key) => units.find(({ quantity }) => quantity === key)?.units[0] ?? '';
  const shown = Object.entries(values).map(([quantity, value]) => `${quantity} ${value} ${unitOf(quantity)}`.trim());
  return `${sensor}: ${shown.join(', ')}`;
}
