// Which containers the shelf shows, in which order and in which groups. Pure.

import { TITLES } from '../shared/container-words.js';

const LEVELS = Object.keys(TITLES);
/** The levels of the filter `attention`: what somebody should look at. */
const ATTENTION = ['act', 'silent', 'watch'];

export const rankOf = (level) => LEVELS.indexOf(level);

const ORDERS = {
  worst: (a, b) => rankOf(a.level) - rankOf(b.level),
  name: () => 0,
  warmest: (a, b) => order(temperatureOf(a), temperatureOf(b), -1),
  coldest: (a, b) => order(temperatureOf(a), temperatureOf(b)),
  check: (a, b) => order(a.check, b.check),
};

const temperatureOf = ({ container }) => container.latest?.temperature?.value ?? null;

/** What is not known comes last, in either direction. */
function order(a, b, direction = 1) {
  if (a === null || b === null) return (a === null ? 1 : 0) - (b === null ? 1 : 0);
  return (a - b) * direction;
}

const byName = new Intl.Collator(undefined, { numeric: true, sensitivity: 'base' }).compare;

const GROUPS = {
  none: () => '',
  room: ({ container }) => container.room ?? '',
  source: ({ container }) => container.heatSource ?? '',
  state: ({ level }) => level,
};

const fits = (text, part) => (text ?? '').toLowerCase().includes(part);

function matches({ container, level, species }, { search, room, state }) {
  const part = search.trim().toLowerCase();
  const found = [container.name, container.room, container.heatSource, species].some((text) => fits(text, part));
  const here = room === '' || container.room === room;
  const so = state === '' || level === state || (state === 'attention' && ATTENTION.includes(level));
  return found && here && so;
}

/**
 * Groups of containers: `key` is a room, heat source or level, empty for none; `waiting` counts the containers in it
 * that need somebody.
 * @param items container, level, time of its next check (ms, or null) and names of the species in it
 * @param choice group, sort, search, room, state
 */
export function arrange(items, choice) {
  const keyOf = GROUPS[choice.group] ?? GROUPS.none;
  const compare = ORDERS[choice.sort] ?? ORDERS.worst;
  const groups = new Map();
  const shown = items
    .filter((item) => matches(item, choice))
    .sort((a, b) => compare(a, b) || byName(a.container.name, b.container.name));
  for (const item of shown) {
    const key = keyOf(item);
    if (!groups.has(key)) groups.set(key, { key, items: [], waiting: 0 });
    const group = groups.get(key);
    group.items.push(item);
    if (item.level === 'act' || item.level === 'silent') group.waiting += 1;
  }
  const place =
    choice.group === 'state'
      ? (a, b) => rankOf(a.key) - rankOf(b.key)
      : (a, b) => (a.key === '') - (b.key === '') || byName(a.key, b.key);
  return [...groups.values()].sort(place);
}

/** Cards for few containers, tiles for very many, unless somebody chose. */
export const densityFor = (chosen, count) =>
  chosen !== 'auto' ? chosen : count <= 12 ? 'card' : count <= 100 ? 'row' : 'tile';

/** True if a change of these settings may give a container another place. */
export const isArrangedAnew = (old, container) =>
  ['name', 'room', 'heatSource'].some((key) => old[key] !== container[key]);
