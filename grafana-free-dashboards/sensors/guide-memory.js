// Remembers in this browser which step of a guided calibration was reached.

import { procedureOf } from './guide-procedures.js';

/** A calibration that was begun longer ago than this is forgotten. */
const REMEMBERED_MS = 2 * 86_400_000;

const keyOf = (sensor) => `tepidarium.calibration.${sensor}`;

export function recall(sensor) {
  try {
    return remembered(globalThis.localStorage?.getItem(keyOf(sensor)), Date.now());
  } catch {
    return null;
  }
}

/** Keeps the state, or forgets it if it is null. A browser that keeps nothing goes on without. */
export function keep(sensor, state) {
  try {
    if (state === null) globalThis.localStorage?.removeItem(keyOf(sensor));
    else globalThis.localStorage?.setItem(keyOf(sensor), JSON.stringify(state));
  } catch {
    // A private window may refuse.
  }
}

/** The state in a stored text; null if it is unreadable, too old, or of an unknown procedure. */
export function remembered(text, now) {
  try {
    const state = JSON.parse(text ?? 'null');
    const known = state !== null && procedureOf(state.procedure) !== undefined && Number.isFinite(state.begunAt);
    return known && state.begunAt <= now && now - state.begunAt < REMEMBERED_MS ? state : null;
  } catch {
    return null;
  }
}
