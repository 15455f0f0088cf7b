// How far a container is outside each of its limits, in words. Pure.

import { conditionOf } from './conditions.js';
import * as f from './format.js';
import { known } from './text.js';
import * as t from './time-format.js';
import { texts } from './texts.js';

export function limitLines(container, kind, now) {
  const state = container.limits?.[kind];
  if (state !== 'outside' && state !== 'alert') return [];
  const words = conditionOf(kind);
  const alert = (container.alerts ?? []).find((one) => one.kind === kind && one.state === 'active');
  const value = container.latest?.[QUANTITY[kind]]?.value;
  const limit = limitOf(container, kind);
  const distance = known(value) && known(limit) ? distanceOf(kind, Math.abs(value - limit)) : null;
  const place = `${distance && beyond(kind, value, limit) ? `${distance} ` : ''}${words.limitWord} ${words.unitOf(limit)}`;
  if (state === 'outside') return [texts.justNowAnAlertFollows(words.title, place)];
  const since = alert ? texts.forWord3(t.duration(now - Date.parse(alert.since))) : '';
  return [`${words.title}: ${place}${since}.`];
}

const QUANTITY = { cold: 'temperature', hot: 'temperature', light: 'light', dry: 'humidity' };
const beyond = (kind, value, limit) => (kind === 'cold' || kind === 'dry' ? value < limit : value > limit);

function distanceOf(kind, difference) {
  if (kind === 'light') return null; // '899 lux above 1 lux' tells nothing more than the light itself
  return kind === 'dry' ? `${f.number(difference)} %` : f.temperatureDifference(difference);
}

export function limitOf(container, kind) {
  const band = container.band ?? {};
  return (
    { cold: band.temperature?.low, hot: band.temperature?.high, light: band.light?.high, dry: band.humidity?.low }[
      kind
    ] ?? null
  );
}
