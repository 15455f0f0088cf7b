// When the next seeds of a group are expected, in words. Pure.

import { number } from '../shared/format.js';
import { heat, heatNumber, heatUnit, known } from './heat-words.js';

const HOUR_MS = 3_600_000;

const dayWith = (options) => (at, zone) =>
  new Intl.DateTimeFormat('en-GB', { day: 'numeric', timeZone: zone, ...options })
    .format(new Date(at))
    .replace(',', '');
const longDay = dayWith({ weekday: 'long', month: 'long' });
const shortDay = dayWith({ month: 'short' });

/**
 * When the next of a group come, and the best day to look: when they are expected, but no later than the check that
 * is due anyway, and not in the past.
 * @param nextCheck {at, why} of the same group, or null
 */
export function forecastWords(forecast, nextCheck, now, zone = undefined) {
  const at = Date.parse(forecast.at);
  const due = nextCheck ? Date.parse(nextCheck.at) : Infinity;
  const best = Math.max(now, Math.min(at, due));
  const next = `the next ${number(forecast.seeds)} of ${number(forecast.remaining)}`;
  const latest = known(forecast.latest)
    ? `${shortDay(forecast.earliest, zone)} to ${shortDay(forecast.latest, zone)}`
    : `not before ${shortDay(forecast.earliest, zone)}, perhaps never`;
  const when =
    at - now < HOUR_MS
      ? `${next} should have come by now (${latest})`
      : `${next} ${forecast.seeds === 1 ? 'comes' : 'come'} around ${longDay(at, zone)} (${latest})`;
  const why = due < at ? `, ${nextCheck.why}` : '';
  const day = longDay(best, zone) === longDay(now, zone) ? 'today' : longDay(best, zone);
  return {
    line: `If it stays as warm as in the last days (${pace(forecast.heatPerDay)}), ${when}.`,
    best: `Best day for the next check: ${day}${why}.`,
    bestAt: best,
  };
}

function pace({ low, likely, high }) {
  const [from, to] = [heatNumber(low), heatNumber(high)];
  return from === to ? `${heat(likely)} a day` : `${from} to ${to} ${heatUnit()} a day`;
}
