// A line of text with the button that opens the check of a group.

import { h } from '../shared/dom.js';
import { texts } from './texts.js';

/** @param openCheck opens the sheet of a group */
export const checkRow = (words, group, openCheck) =>
  h(
    'li',
    { class: 'with-button' },
    h('span', {}, words),
    h(
      'button',
      {
        type: 'button',
        class: 'main',
        'aria-label': texts.checkGroup(group.id),
        on: { click: () => openCheck(group.id) },
      },
      texts.check,
    ),
  );
