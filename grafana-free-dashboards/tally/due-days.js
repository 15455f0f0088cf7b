// The next checks by day, those that are overdue first. Pure.

import * as t from '../shared/time-format.js';
import { texts } from './texts.js';

const OVERDUE = 'overdue';

/** The species that have a next check, by name. */
export function dueSpecies(sowings) {
  const due = sowings.filter((sowing) => sowing.groups.some((group) => group.nextCheck));
  return [...new Map(due.map((one) => [one.species, one.speciesName]))]
    .map(([value, text]) => ({ value, text }))
    .sort((a, b) => a.text.localeCompare(b.text));
}

/** The rooms in which a check is next. */
export function dueRooms(sowings, roomOf) {
  const groups = sowings.flatMap((sowing) => sowing.groups).filter((group) => group.nextCheck);
  const rooms = new Set(groups.map((group) => roomOf(group.container)).filter(Boolean));
  return [...rooms].sort((a, b) => a.localeCompare(b, undefined, { numeric: true }));
}

/**
 * @param roomOf gives the room of a container by its id
 * @param species, room only the checks of these; empty for all
 */
export function dueDays(sowings, now, { roomOf = () => null, species = '', room = '' }) {
  const due = sowings
    .filter((sowing) => species === '' || sowing.species === species)
    .flatMap((sowing) => sowing.groups.filter((group) => group.nextCheck).map((group) => ({ sowing, group })))
    .filter(({ group }) => room === '' || roomOf(group.container) === room)
    .sort((a, b) => Date.parse(a.group.nextCheck.at) - Date.parse(b.group.nextCheck.at));
  const today = t.dayKey(new Date(now));
  const days = new Map();
  for (const one of due) {
    const day = t.dayKey(new Date(one.group.nextCheck.at));
    const key = day < today ? OVERDUE : day;
    if (!days.has(key)) days.set(key, { key, title: dayTitle(key, today), items: [] });
    days.get(key).items.push(one);
  }
  return [...days.values()];
}

function dayTitle(key, today) {
  if (key === OVERDUE) return texts.overdue;
  if (key === today) return texts.today;
  return key === t.nextDay(today) ? texts.tomorrow : t.day(key);
}
