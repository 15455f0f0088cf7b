// The list of kept seasons.

import { byId, h, reconcile, setText, whileBusy } from '../shared/dom.js';
import * as f from '../shared/format.js';
import * as words from './words.js';
import { pageZone } from '../shared/zone.js';
import { texts } from './texts.js';

const zone = pageZone;

/**
 * @param shownId of the season shown; null for none
 * @param choose called with a season to show
 * @param forget called with a season to remove
 */
export function drawKept(keptSeasons, { shownId, choose, forget }) {
  byId('kept-part').hidden = keptSeasons.length === 0;
  reconcile(
    byId('kept'),
    keptSeasons,
    (one) => one.id,
    (season) => makeKept(season, { choose, forget }),
    (item, one) => {
      const link = item.querySelector('a');
      link.href = `?season=${one.id}`;
      link.setAttribute('aria-current', String(shownId === one.id));
      setText(link, one.name);
      setText(
        item.querySelector('.about'),
        ` ${words.spanWords(one, zone)}: ${one.sown > 0 ? texts.sownGerminated(f.count(one.sown, texts.seedCount), f.number(one.germinated)) : texts.nothingSown}`,
      );
    },
  );
}

function makeKept(season, { choose, forget }) {
  const remove = h(
    'button',
    {
      type: 'button',
      class: 'plain',
      on: {
        click: () => {
          if (remove.dataset.sure) whileBusy(remove, byId('said'), () => forget(season));
          else {
            remove.dataset.sure = 'true';
            setText(remove, texts.reallyRemoveIt);
          }
        },
        blur: () => {
          delete remove.dataset.sure;
          setText(remove, texts.remove);
        },
      },
    },
    texts.remove,
  );
  return h(
    'li',
    { class: 'with-button' },
    h(
      'span',
      {},
      h('a', {
        on: {
          click: (event) => {
            event.preventDefault();
            choose(season);
          },
        },
      }),
      h('span', { class: 'about quiet' }),
    ),
    remove,
  );
}
