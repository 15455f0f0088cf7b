// Maps that follow what the service lists. Pure.

/** Empties the map and fills it with the list. */
export function replaceAll(map, list, keyOf) {
  map.clear();
  for (const one of list) map.set(keyOf(one), one);
}
