// The next checks of all sowings by day, with a choice of the species.

import { now } from '../shared/clock.js';
import { byId, h, reconcile, setOptions, setText } from '../shared/dom.js';
import { checkRow } from './check-row.js';
import { dueDays, dueSpecies } from './due-days.js';
import { dueWords } from './seed-words.js';
import { texts } from './texts.js';

/**
 * @param names the name of a container, by its id
 * @param openCheck opens the sheet of a group
 */
export function drawDue(sowings, { names, openCheck }) {
  const species = dueSpecies(sowings);
  const pick = byId('due-species');
  setOptions(pick, [{ value: '', text: texts.allSpecies }, ...species]);
  pick.closest('.field').hidden = species.length < 2;
  pick.onchange = () => drawDue(sowings, { names, openCheck });
  byId('due-part').hidden = species.length === 0;
  reconcile(
    byId('due'),
    dueDays(sowings, now(), pick.value),
    (day) => day.key,
    () => h('li', {}, h('h3'), h('ul', { class: 'rows' })),
    (item, day) => {
      setText(item.querySelector('h3'), day.title);
      reconcile(
        item.querySelector('ul'),
        day.items,
        (one) => one.group.id,
        ({ group }) => checkRow('', group, openCheck),
        (row, one) => setText(row.firstElementChild, checkWords(one, day, names)),
      );
    },
  );
}

function checkWords({ sowing, group }, day, names) {
  const late = day.key === 'overdue' ? `, ${dueWords(group.nextCheck.at, now())}` : '';
  return texts.group(names(group.container), sowing.speciesName, group.id, late);
}
