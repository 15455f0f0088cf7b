// Asks the service for what charts of a container show over a stretch of time.

import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';

/** More would not be seen: two for each pixel of a phone. */
const MOST_POINTS = 900;
const LEAST_POINTS = 200;

/** How many samples a line has: fewer where several share a chart. */
export const pointsOf = (width, sharing) =>
  Math.round(Math.min(MOST_POINTS, Math.max(LEAST_POINTS, width)) / Math.min(3, sharing));

/**
 * The answers by their names.
 * @param width of the charts, px; @param sharing how many containers share a chart
 */
export async function loadContainer(id, span, { width, sharing = 1 }) {
  const points = pointsOf(width, sharing);
  const [readings, light, band, openings, events, faults, heat] = await Promise.all([
    api.readings(id, { ...span, points }),
    api.light(id, span),
    api.band(id, span),
    api.openings(id, span),
    api.events(id, span),
    api.faults(id, span),
    // Heat so far counts from the beginning, whatever stretch is looked at.
    api.heat(id, {}),
  ]);
  return { readings, light, band, openings, events, faults, heat };
}

/** Two containers at a time keep the browser's connections busy, and its page free for the next press. */
const AT_ONCE = 2;

/**
 * The answers for each container, in their order.
 * @param ask gives the answer for one; @param wanted false once another stretch was asked for: the rest is left out
 */
export async function loadInTurn(containers, ask, wanted) {
  const answers = [];
  let next = 0;
  async function work() {
    while (next < containers.length && wanted()) {
      const i = next++;
      answers[i] = await ask(containers[i]);
    }
  }
  await Promise.all(Array.from({ length: AT_ONCE }, work));
  return answers;
}

/** How often a stretch that ends now is asked for again. */
export const reloadEveryMs = ({ from, to }) => (to - from <= 2 * 86_400_000 ? 20_000 : 120_000);

/** The end of what charts of this stretch can show. */
export const edgeOf = (span) => Math.min(span.to, now());
