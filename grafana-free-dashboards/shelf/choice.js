// How the shelf is shown: in the address, so that it can be passed on, and the lasting part in the browser.

const KEY = 'tepidarium.shelf';
const LASTING = ['group', 'sort', 'density'];

export const OPTIONS = {
  group: ['none', 'room', 'source', 'state'],
  sort: ['worst', 'name', 'warmest', 'coldest', 'check'],
  density: ['auto', 'card', 'row', 'tile'],
};
const DEFAULTS = { group: 'none', sort: 'worst', density: 'auto', search: '', room: '', state: '' };

/** Asked at each use, because the mere access may be forbidden. */
const browserStorage = {
  getItem: (key) => localStorage.getItem(key),
  setItem: (key, value) => localStorage.setItem(key, value),
};

const allowed = (name, value) => value !== undefined && (!OPTIONS[name] || OPTIONS[name].includes(value));

function remembered(storage) {
  try {
    return JSON.parse(storage.getItem(KEY)) ?? {};
  } catch {
    return {}; // forbidden or broken
  }
}

/** The address wins over what the browser remembers. @param search of the address */
export function readChoice(search, storage = browserStorage) {
  const choice = { ...DEFAULTS };
  const given = Object.fromEntries(new URLSearchParams(search));
  for (const source of [remembered(storage), given]) {
    for (const name of Object.keys(DEFAULTS)) if (allowed(name, source[name])) choice[name] = String(source[name]);
  }
  return choice;
}

/** Remembers the lasting part. Returns the query of the address; it names only what differs from the usual. */
export function keepChoice(choice, search, storage = browserStorage) {
  try {
    storage.setItem(KEY, JSON.stringify(Object.fromEntries(LASTING.map((name) => [name, choice[name]]))));
  } catch {
    /* forbidden or full: the address still tells */
  }
  const query = new URLSearchParams(search);
  for (const [name, usual] of Object.entries(DEFAULTS)) {
    if (choice[name] === usual) query.delete(name);
    else query.set(name, choice[name]);
  }
  return query.size > 0 ? `?${query}` : '';
}

/** True if the shelf is shown as usual, so that the worst few are its first screen. */
export const isUsual = (choice) =>
  ['group', 'sort', 'search', 'room', 'state'].every((name) => choice[name] === DEFAULTS[name]);

/** The part of the containers to ask the service for. @param filtered whether it shall search and filter too */
export const partOf = ({ search, room, sort }, limit, filtered) => ({
  limit,
  sort: sort === 'name' ? 'name' : 'worst',
  search: (filtered && search.trim()) || null,
  room: (filtered && room) || null,
});
