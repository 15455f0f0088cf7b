// The next checks of all sowings by day, with a choice of the species.

import { now } from '../shared/clock.js';
import { byId, h, reconcile, setOptions, setText } from '../shared/dom.js';
import { checkRow } from './check-row.js';
import { dueDays, dueRooms, dueSpecies } from './due-days.js';
import { dueWords, groupName } from './seed-words.js';
import { texts } from './texts.js';

/** What is chosen: only the checks of these; empty for all. */
export const dueChoice = () => ({ species: byId('due-species').value, room: byId('due-room').value });

/**
 * @param names, roomOf name and room of a container, by its id
 * @param openCheck opens the sheet of a group; @param chosen called after another choice
 */
export function drawDue(sowings, { names, roomOf, openCheck, chosen }) {
  const species = dueSpecies(sowings);
  const rooms = dueRooms(sowings, roomOf).map((name) => ({ value: name, text: name }));
  for (const [id, all, options, fewest] of [
    ['due-species', texts.allSpecies, species, 2],
    ['due-room', texts.allRooms, rooms, 1],
  ]) {
    const pick = byId(id);
    setOptions(pick, [{ value: '', text: all }, ...options]);
    pick.closest('.field').hidden = options.length < fewest;
    pick.onchange = chosen;
  }
  byId('due-part').hidden = species.length === 0;
  reconcile(
    byId('due'),
    dueDays(sowings, now(), { roomOf, ...dueChoice() }),
    (day) => day.key,
    () => h('li', {}, h('h3'), h('ul', { class: 'rows' })),
    (item, day) => {
      setText(item.querySelector('h3'), day.title);
      reconcile(
        item.querySelector('ul'),
        day.items,
        (one) => one.group.id,
        ({ group }) => checkRow('', group, (id) => openCheck(id)),
        (row, one) => setText(row.firstElementChild, checkWords(one, day, names, roomOf)),
      );
    },
  );
}

function checkWords({ sowing, group }, day, names, roomOf) {
  const late = day.key === 'overdue' ? `, ${dueWords(group.nextCheck.at, now())}` : '';
  const room = roomOf(group.container);
  const place = [names(group.container), room].filter(Boolean).join(', ');
  return texts.group(place, sowing.speciesName, groupName(group), late);
}
