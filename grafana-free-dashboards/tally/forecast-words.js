// When the next seeds of a group are expected, in words. Pure.

import { number } from '../shared/format.js';
import { heat, heatNumber, heatUnit, known } from './heat-words.js';
import { locale } from '../shared/language.js';
import { pageZone } from '../shared/zone.js';
import { texts } from './texts.js';
import { checkWhy } from './why-words.js';

const HOUR_MS = 3_600_000;

const dayWith =
  (options) =>
  (at, zone = pageZone) =>
    new Intl.DateTimeFormat(locale, { day: 'numeric', timeZone: zone, ...options })
      .format(new Date(at))
      .replace(',', '');
const longDay = dayWith({ weekday: 'long', month: 'long' });
const shortDay = dayWith({ month: 'short' });

/**
 * When the next of a group come, and the best day to look: when they are expected, but no later than the check that
 * is due anyway, and not in the past.
 * @param nextCheck {at, why, because} of the same group, or null
 */
export function forecastWords(forecast, nextCheck, now, zone = undefined) {
  const at = Date.parse(forecast.at);
  const due = nextCheck ? Date.parse(nextCheck.at) : Infinity;
  const best = Math.max(now, Math.min(at, due));
  const next = texts.theNextOf(number(forecast.seeds), number(forecast.remaining));
  const latest = known(forecast.latest)
    ? texts.to(shortDay(forecast.earliest, zone), shortDay(forecast.latest, zone))
    : texts.notBeforePerhapsNever(shortDay(forecast.earliest, zone));
  const when =
    at - now < HOUR_MS
      ? texts.shouldHaveComeByNow(next, latest)
      : texts.around(next, forecast.seeds === 1 ? texts.comes : texts.come, longDay(at, zone), latest);
  const why = due < at ? `, ${checkWhy(nextCheck)}` : '';
  const day = longDay(best, zone) === longDay(now, zone) ? texts.today2 : longDay(best, zone);
  return {
    line: texts.ifItStaysAsWarm(pace(forecast.heatPerDay), when),
    best: texts.bestDayForTheNext(day, why),
    bestAt: best,
  };
}

function pace({ low, likely, high }) {
  const [from, to] = [heatNumber(low), heatNumber(high)];
  return from === to ? texts.aDay(heat(likely)) : texts.toADay(from, to, heatUnit());
}
