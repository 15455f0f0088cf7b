// A line of text with the button that opens the check of a group.

import { h } from '../shared/dom.js';

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
        'aria-label': `Check group ${group.id}`,
        on: { click: () => openCheck(group.id) },
      },
      'Check',
    ),
  );
