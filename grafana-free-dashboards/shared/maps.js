// Maps that follow what the service lists. Pure.

/** Empties the map and fills it with the list. */
export function replaceAll(map, list, keyOf) {
  map.clear();
  for (const one of list) map.set(keyOf(one), one);
}

/**
 * A map that is loaded as a whole, and changed between by events and by the person. A change that comes while a list
 * is on its way is newer than the list, and stays.
 */
export class FollowedMap extends Map {
  #keyOf;
  #loading = new Set();
  #asked = 0;
  #taken = 0;

  constructor(keyOf) {
    super();
    this.#keyOf = keyOf;
  }

  set(key, one) {
    for (const changes of this.#loading) changes.set(key, one);
    return super.set(key, one);
  }

  delete(key) {
    for (const changes of this.#loading) changes.set(key, undefined);
    return super.delete(key);
  }

  /**
   * A list that was asked for before the one taken last is left.
   * @param ask resolves to the list
   * @param isWhole called when the list is there: whether it has all there is. If not, changes of others are left too
   * @returns whether the list was taken
   */
  async load(ask, isWhole = () => true) {
    const changes = new Map();
    const number = ++this.#asked;
    this.#loading.add(changes);
    try {
      const list = await ask();
      if (number < this.#taken) return false;
      this.#taken = number;
      this.#take(list, changes, isWhole());
      return true;
    } finally {
      this.#loading.delete(changes);
    }
  }

  #take(list, changes, whole) {
    super.clear();
    for (const one of list) super.set(this.#keyOf(one), one);
    for (const [key, one] of changes) {
      if (one === undefined) super.delete(key);
      else if (whole || super.has(key)) super.set(key, one);
    }
  }
}
