// Asks for the temperatures along the way of each group of a sowing, up to its last check.

import { api } from '../shared/api.js';
import { columnsOf } from '../shared/series.js';
import { texts } from './texts.js';
import { legsOf, meanWarmth, warmthPoints } from './warmth.js';

/** More lines than this hide each other. */
const MOST_LINES = 4;
const POINTS_OF_STAY = 300;

/**
 * @return lines: [{name, points}], one for each group that has readings, groups of one container once; leftOut: says
 *   that there are more, empty if not
 */
export async function loadWarmth(sowing, germination, names) {
  const sownAt = Date.parse(germination.sownAt);
  const endMs = Math.max(...germination.checks.map((check) => Date.parse(check.at)));
  const paths = await Promise.all(sowing.groups.map((group) => api.path(group.id)));
  const ways = new Map();
  for (const path of paths) {
    const legs = legsOf(path, endMs);
    const key = legs.map((leg) => `${leg.container} ${leg.from}`).join();
    if (legs.length > 0 && !ways.has(key)) ways.set(key, { legs, path });
  }
  const lines = await Promise.all(
    [...ways.values()].slice(0, MOST_LINES).map(async ({ legs, path }) => {
      const stays = await Promise.all(legs.map(stay));
      const name = [...new Set(legs.map((leg) => names(leg.container)))].join(' → ');
      return { name, points: warmthPoints(stays, sownAt, path) };
    }),
  );
  return {
    lines: lines.filter((line) => meanWarmth(line.points) !== null),
    leftOut: ways.size > MOST_LINES ? texts.warmthFirstOf(MOST_LINES, ways.size) : '',
  };
}

async function stay(leg) {
  const readings = await api.readings(leg.container, { from: leg.from, to: leg.until, points: POINTS_OF_STAY });
  return { ...leg, columns: columnsOf(readings.temperature) };
}
