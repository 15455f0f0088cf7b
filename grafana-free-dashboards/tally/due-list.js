// The next checks of all sowings, soonest first.

import { now } from '../shared/clock.js';
import { byId, h, reconcile, setText } from '../shared/dom.js';
import { dueWords } from './seed-words.js';

const DUE_SHOWN = 6;

/**
 * @param names the name of a container, by its id
 * @param openCheck opens the sheet of a group
 */
export function drawDue(sowings, { names, openCheck }) {
  const due = sowings.flatMap((sowing) =>
    sowing.groups.filter((group) => group.nextCheck).map((group) => ({ sowing, group })),
  );
  due.sort((a, b) => Date.parse(a.group.nextCheck.at) - Date.parse(b.group.nextCheck.at));
  byId('due-part').hidden = due.length === 0;
  reconcile(
    byId('due'),
    due.slice(0, DUE_SHOWN),
    (one) => one.group.id,
    ({ group }) =>
      h(
        'li',
        { class: 'with-button' },
        h('span'),
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
      ),
    (item, { sowing, group }) =>
      setText(
        item.firstElementChild,
        `${names(group.container)}: ${sowing.speciesName}, group ${group.id}, ${dueWords(group.nextCheck.at, now())}`,
      ),
  );
}
