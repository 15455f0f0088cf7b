// The ways into the guide.

import { byId } from '../shared/dom.js';

/** The buttons on top of the shelf open the guide at a step; so does an address with `place`. */
export function connectButtons(guide) {
  for (const button of byId('shelf-actions').querySelectorAll('button')) {
    button.addEventListener('click', () => guide.show(button.dataset.step));
  }
  const wanted = new URLSearchParams(location.search).get('place');
  if (wanted) guide.show('place', { container: wanted });
}
