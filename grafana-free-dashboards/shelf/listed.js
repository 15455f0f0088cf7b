// The containers that the service lists for the shelf: first the few of the first screen, then up to 300, and more when
// the person asks.

import { api } from '../shared/api.js';
import { FollowedMap } from '../shared/maps.js';
import { isUsual, partOf } from './choice.js';

/** So many containers are asked for at once; the service then gives those that match, the worst first. */
export const PART = 300;
/** The head of shelf.html asks for the same, before this script is there. */
const FIRST_PART = 24;

/** @param choice of the person, changed in place */
export function makeListed(choice) {
  const containers = new FollowedMap((one) => one.id);
  let limit = PART;
  const listed = {
    containers,
    /** The number of all containers, and of those that match. */
    total: 0,
    matching: 0,
    /** Only the first few are there, and the rest follows at once. */
    few: false,
    isPart: () => listed.total > containers.size,
    askForMore: () => (limit += PART),
    /** Asks for the first few alone if they are the first screen, else for all. @returns whether it took an answer */
    first: () => (isUsual(choice) ? ask(FIRST_PART, true) : listed.load()),
    load: () => ask(limit, false),
    /** Counts a new container that an event told of; while the rest is on its way, it may be one of those. */
    count: (container) => {
      if (listed.few || containers.has(container.id)) return;
      listed.total += 1;
      listed.matching += 1;
    },
  };

  async function ask(most, few) {
    let answer;
    const filtered = listed.isPart() || listed.total === 0;
    const list = async () => (answer = await api.containers(partOf(choice, most, filtered))).containers;
    if (!(await containers.load(list, () => answer.total === answer.containers.length))) return false;
    ({ total: listed.total, matching: listed.matching } = answer);
    listed.few = few;
    return true;
  }

  return listed;
}
