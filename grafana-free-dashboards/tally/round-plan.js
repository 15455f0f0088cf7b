// The stops of a round: which groups are due, in the order of the walk, and what became of each. Pure.

import * as t from '../shared/time-format.js';

const HOUR_MS = 3600_000;
/** A round that was left for longer than this is not gone on with. */
const KEPT_MS = 12 * HOUR_MS;

/**
 * The groups that are due until the end of today, room by room; within a room the container first that waits longest.
 * The groups of one container follow each other, because one opening serves them all.
 * @param roomOf gives the room of a container by its id; null for none
 * @param choice species and room, empty for all
 */
export function dueStops(sowings, now, { roomOf, species, room }) {
  const today = t.dayKey(new Date(now));
  const stops = sowings
    .filter((sowing) => species === '' || sowing.species === species)
    .flatMap((sowing) => sowing.groups)
    .filter((group) => group.nextCheck && t.dayKey(new Date(group.nextCheck.at)) <= today)
    .filter((group) => room === '' || roomOf(group.container) === room)
    .map((group) => ({ group: group.id, container: group.container, at: Date.parse(group.nextCheck.at) }));
  const first = new Map();
  for (const { container, at } of stops) first.set(container, Math.min(at, first.get(container) ?? Infinity));
  const roomName = (stop) => roomOf(stop.container) ?? '';
  return stops
    .sort(
      (a, b) =>
        (roomName(a) === '') - (roomName(b) === '') ||
        roomName(a).localeCompare(roomName(b), undefined, { numeric: true }) ||
        first.get(a.container) - first.get(b.container) ||
        a.container.localeCompare(b.container) ||
        a.group.localeCompare(b.group, undefined, { numeric: true }),
    )
    .map(({ group, container }) => ({ group, container, state: 'waiting' }));
}

export const newRound = (stops, now) => ({ startedAt: now, stops });

/** A kept round; null if it is too old, not one, or nothing of it waits. */
export function keptRound(text, now) {
  try {
    const round = JSON.parse(text);
    return Array.isArray(round?.stops) && now - round.startedAt < KEPT_MS && nextStop(round) ? round : null;
  } catch {
    return null;
  }
}

/** The first stop that waits; in the given container if there is one. */
export const nextStop = (round, container) =>
  round.stops.find((stop) => stop.state === 'waiting' && stop.container === container) ??
  round.stops.find((stop) => stop.state === 'waiting') ??
  null;

/** @param state done, skipped, or waiting for another try */
export const marked = (round, group, state) => ({
  ...round,
  stops: round.stops.map((stop) => (stop.group === group ? { ...stop, state } : stop)),
});

export const stopsThat = (round, state) => round.stops.filter((stop) => stop.state === state);

/** All that were skipped wait again. */
export const skippedAgain = (round) => ({
  ...round,
  stops: round.stops.map((stop) => (stop.state === 'skipped' ? { ...stop, state: 'waiting' } : stop)),
});
