// Says what a page lacks, with a link to the next step.

import { h } from './dom.js';
import { texts } from './texts.js';

/** Fills an element with a sentence and, if there is a next step, its link. Keeps what says the same already. */
export function showNext(place, words, next = null) {
  const key = `${words}|${next?.href ?? ''}`;
  if (place.dataset.said === key) return;
  place.dataset.said = key;
  place.replaceChildren(words, ...(next ? [' ', h('a', { href: next.href }, next.title)] : []));
}

/** Where a container is made. */
export const makeContainer = () => ({ title: texts.makeAContainer, href: '/' });

/** Words and next step of a page that shows containers, while there is none. */
export const withoutContainers = () => [texts.noContainerYet, makeContainer()];
