// Asks the service for what charts of containers show over a stretch of time.

import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';

/** More would not be seen: two for each pixel of a phone. */
const MOST_POINTS = 900;
const LEAST_POINTS = 200;

/** How many samples a line has: fewer where several share a chart. */
export const pointsOf = (width, sharing) =>
  Math.round(Math.min(MOST_POINTS, Math.max(LEAST_POINTS, width)) / Math.min(3, sharing));

/** Containers in one call: the service works at the next call while the page reads the answer of the last one. */
const IN_ONE_CALL = 5;

/**
 * The answers for each container, in their order.
 * @param ids of containers; @param width of the charts, px
 * @param ask gives the answers of one call
 */
export async function loadCharts(ids, span, width, ask = api.charts) {
  const points = pointsOf(width, ids.length);
  const calls = [];
  for (let i = 0; i < ids.length; i += IN_ONE_CALL)
    calls.push(ask({ ...span, points, containers: ids.slice(i, i + IN_ONE_CALL).join() }));
  return (await Promise.all(calls)).flat();
}

/** How often a stretch that ends now is asked for again. */
export const reloadEveryMs = ({ from, to }) => (to - from <= 2 * 86_400_000 ? 20_000 : 120_000);

/** The end of what charts of this stretch can show. */
export const edgeOf = (span) => Math.min(span.to, now());
