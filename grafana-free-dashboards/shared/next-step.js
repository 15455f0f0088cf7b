// Says what is missing, and links to what to do next.

import { h } from './dom.js';

/** Fills an element with a sentence and, if there is a next step, its link. Keeps what says the same already. */
export function showNext(place, words, next = null) {
  const key = `${words}|${next?.href ?? ''}`;
  if (place.dataset.said === key) return;
  place.dataset.said = key;
  place.replaceChildren(words, ...(next ? [' ', h('a', { href: next.href }, next.title)] : []));
}
