// The temperatures of the past day, for the thin line on each card.

import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';

const DAY_MS = 24 * 3600_000;
const DAY_POINTS = 96;

/** Loads one container after the other, so the requests do not delay live events. */
export async function loadDays(list, taken) {
  for (const container of list) await loadDay(container, taken);
}

export async function loadDay(container, taken) {
  const to = now();
  const from = to - DAY_MS;
  try {
    const { temperature } = await api.readings(container.id, { from, to, points: DAY_POINTS });
    taken(container.id, { series: temperature, from, to });
  } catch {
    /* the card simply has no line; the notice on top tells when the service is away */
  }
}
