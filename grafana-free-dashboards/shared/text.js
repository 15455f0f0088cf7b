// Small helpers for sentences. Pure.

import { texts } from './texts.js';

export const known = (value) => value !== null && value !== undefined;

export const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

export function listed(items) {
  return items.length < 2 ? items.join('') : texts.and(items.slice(0, -1).join(', '), items.at(-1));
}

/** A title in the middle of a sentence: English titles begin small there, German nouns do not. */
export const inSentence = (title) => texts.titleInSentence(title);
