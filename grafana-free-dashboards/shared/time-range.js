// The stretch of time that charts show: its length, and steps backward and forward. Pure.

import { HOUR_MS } from './series.js';

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
