// Shows the reading that a rule gives of a message.

import { h } from '../shared/dom.js';
import { placeWords } from './rule.js';
import { readingWords } from './words.js';
import { texts } from './texts.js';

/** @param trial the answer of the service; null if no value is chosen */
export function showTrial(place, trial, { values }, units) {
  if (trial === null) {
    place.replaceChildren(h('p', { class: 'quiet' }, texts.noValueIsChosenYet));
    return;
  }
  const chosen = Object.entries(values).map(([quantity, value]) => placeWords(quantity, value));
  place.replaceChildren(
    ...trial.readings.map((reading) => h('p', { class: 'reading-values' }, readingWords(reading, units))),
    ...trial.problems.map((problem) => h('p', { class: 'caution' }, problem)),
    h('p', { class: 'quiet' }, chosen.join(', ')),
  );
}
