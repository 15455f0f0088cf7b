// The next check of each container, and the species in it. Not needed for the first screen.

import { api } from '../shared/api.js';
import { replaceAll } from '../shared/maps.js';

export function makeChecksDue() {
  const due = new Map();
  return {
    load: async () => replaceAll(due, await api.checksDue(), (one) => one.container),
    /** The time of its next check, ms; null for none. */
    at: (id) => (due.has(id) ? Date.parse(due.get(id).at) : null),
    species: (id) => (due.get(id)?.groups ?? []).map((group) => group.speciesName).join(' '),
  };
}
