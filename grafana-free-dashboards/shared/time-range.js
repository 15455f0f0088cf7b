// The stretch of time that charts show: its length, and steps backward and forward. Pure.

import { HOUR_MS, isKnown } from './series.js';

/** The lowest and highest value of a line and its number of gaps; null without values. For a text summary. */
export function extent(columns) {
  const lows = columns[2].filter(isKnown);
  const highs = columns[3].filter(isKnown);
  const gaps = columns[1].filter((value, i) => value === null && columns[1][i - 1] !== null).length;
  return lows.length === 0
    ? null
    : { min: lows.reduce((a, b) => Math.min(a, b)), max: highs.reduce((a, b) => Math.max(a, b)), gaps };
}

/**
 * Zooms a range around its middle, or moves it by half its length. The range ends now at the latest and is at least
 * 10 minutes long.
 */
export function shiftRange({ from, to }, step, now) {
  const length = to - from;
  const middle = (from + to) / 2;
  const moved = {
    earlier: [from - length / 2, to - length / 2],
    later: [from + length / 2, to + length / 2],
    closer: [middle - length / 4, middle + length / 4],
    wider: [middle - length, middle + length],
  }[step];
  const wanted = Math.max(moved[1] - moved[0], HOUR_MS / 6);
  const end = Math.min(moved[1], now);
  return { from: Math.round(end - wanted), to: Math.round(end) };
}
