// The list of entries that wait on this device or were refused.

import { now } from '../shared/clock.js';
import { byId, h } from '../shared/dom.js';
import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';
import { texts } from './texts.js';

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
      entry.refused && texts.refusedSince(entry.refused),
      ' ',
      h('button', { type: 'button', class: 'plain', on: { click: () => unsent.discard(entry.key) } }, texts.discard),
    ),
  );
  part.replaceChildren(
    h(
      'strong',
      {},
      waiting.length > 0
        ? texts.waitingToBeSent2(f.count(waiting.length, texts.entryCount))
        : texts.notTakenByTheService,
    ),
    h('ul', {}, items),
  );
}
