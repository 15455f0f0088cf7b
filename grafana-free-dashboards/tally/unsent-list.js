// The list of entries that wait on this device or were refused.

import { now } from '../shared/clock.js';
import { byId, h } from '../shared/dom.js';
import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';

export function drawUnsent(unsent) {
  const list = unsent.list();
  const part = byId('unsent');
  part.hidden = list.length === 0;
  const waiting = list.filter((entry) => !entry.refused);
  const items = list.map((entry) =>
    h(
      'li',
      { class: entry.refused ? 'refused' : '' },
      `${t.stamp(entry.writtenAt, now())}. ${entry.what}`,
      entry.refused && `: refused, since ${entry.refused}`,
      ' ',
      h('button', { type: 'button', class: 'plain', on: { click: () => unsent.discard(entry.key) } }, 'Discard'),
    ),
  );
  part.replaceChildren(
    h(
      'strong',
      {},
      waiting.length > 0
        ? `${f.count(waiting.length, 'entry', 'entries')} waiting to be sent`
        : 'Not taken by the service',
    ),
    h('ul', {}, items),
  );
}
