// The temperatures of the past day, for the thin line on each card. Asked for once a card comes into view.

import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';

const DAY_MS = 24 * 3600_000;
const DAY_POINTS = 96;
const FRESH_MS = 5 * 60_000;

/** @param taken called with the id of a container and its day */
export function followDays(taken) {
  const loadedAt = new Map();
  const wanted = new Map();
  let running = false;

  const visible = new IntersectionObserver((entries) => {
    for (const { target, isIntersecting } of entries) {
      const id = target.dataset.container;
      if (isIntersecting && target.isConnected) wanted.set(id, target);
      else wanted.delete(id);
    }
    run();
  });

  /** One request after the other, so that they do not delay live events. */
  async function run() {
    if (running) return;
    running = true;
    for (let id = next(); id; id = next()) {
      loadedAt.set(id, now());
      await loadDay(id, taken);
    }
    running = false;
  }

  const next = () => [...wanted.keys()].find((id) => now() - (loadedAt.get(id) ?? 0) > FRESH_MS);
  setInterval(run, FRESH_MS / 5);
  return { watch: (card) => visible.observe(card) };
}

async function loadDay(id, taken) {
  const to = now();
  const from = to - DAY_MS;
  try {
    const { temperature } = await api.readings(id, { from, to, points: DAY_POINTS });
    taken(id, { series: temperature, from, to });
  } catch {
    /* the card simply has no line; the notice on top tells when the service is away */
  }
}
