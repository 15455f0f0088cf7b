// What the figures mean, said in words. Pure: a container or an alert in, sentences out.

import { isShelved } from './alert-words.js';
import { leftOutOfHeat } from './fault-words.js';
import * as f from './format.js';
import { limitLines } from './limit-words.js';
import { QUANTITIES } from './quantities.js';
import { capital, known, listed } from './text.js';
import * as t from './time-format.js';
import { texts } from './texts.js';

export const CONTAINER_KINDS = { jar: texts.jar, box: texts.box, bag: texts.bag, tray: texts.tray };

/** A value is `fresh` up to the longest allowed gap, and `old` beyond or while its sensor is silent. */
export function freshness(container, quantity, now, maxGapMinutes) {
  const latest = container.latest?.[quantity];
  if (!latest || !known(latest.value)) return { state: 'none', latest: null };
  const old = now - Date.parse(latest.at) > maxGapMinutes * 60_000;
  const silent = container.limits?.silent === 'alert';
  return { state: old || silent ? 'old' : 'fresh', latest };
}

export function whyUnknown(container, quantity) {
  return (container.sensors ?? []).length === 0
    ? texts.noSensorPlaced
    : (QUANTITIES.find((one) => one.key === quantity)?.missing ?? texts.notReported);
}

/**
 * How a container is doing. It is silent only if the alert says so: a sensor that reports rarely has old values.
 * level: 'act' (an alert), 'silent', 'seen' (alerts, all acknowledged or shelved), 'watch' (outside, not yet an alert), 'open', 'empty' (no sensor), 'unsure', 'fine'
 */
export function standing(container, now, maxGapMinutes) {
  if ((container.sensors ?? []).length === 0) {
    return { level: 'empty', title: texts.noSensor, lines: [texts.noSensorIsPlacedHere] };
  }
  const lines = [];
  const limits = container.limits ?? {};
  const temperature = freshness(container, 'temperature', now, maxGapMinutes);
  const silent = limits.silent === 'alert';
  if (silent) lines.push(silentLine(container, now));
  const open = Boolean(container.opening) && Date.parse(container.opening.until) > now;
  for (const kind of ['cold', 'dry', 'light', 'hot']) {
    if (!(open && kind === 'light')) lines.push(...limitLines(container, kind, now));
  }
  if (open) lines.push(texts.openForACheckUntil(t.moment(container.opening.until, now)));
  const values = Object.values(limits);
  const handled = values.includes('alert') ? handledWords(container, now) : null;
  if (handled) lines.push(handled);
  const inside = limits.cold === 'inside' && limits.hot === 'inside';
  const level = silent
    ? 'silent'
    : values.includes('alert')
      ? handled
        ? 'seen'
        : 'act'
      : open
        ? 'open'
        : values.includes('outside')
          ? 'watch'
          : temperature.state === 'fresh' && inside
            ? 'fine'
            : 'unsure';
  if (level === 'fine') lines.push(fineLine(container));
  if (level === 'unsure' && temperature.state === 'old' && inside) {
    lines.push(texts.inOrderAtTheLastReading(t.duration(now - Date.parse(temperature.latest.at))));
    return { level, title: texts.wasInOrder, lines };
  }
  if (level === 'unsure' && temperature.state !== 'none') {
    lines.push(texts.itsTemperatureWasNotCompared);
    return { level, title: texts.notCheckedYet, lines };
  }
  if (level === 'unsure') {
    lines.push(texts.aSensorIsPlacedBut);
    return { level, title: texts.noReadingYet, lines };
  }
  return { level, title: TITLES[level], lines };
}

/** Words if every active alert was acknowledged or shelved; else null. */
function handledWords(container, now) {
  const active = (container.alerts ?? []).filter((alert) => alert.state === 'active');
  if (active.length === 0 || active.some((alert) => !alert.acknowledged && !isShelved(alert, now))) return null;
  return active.some((alert) => isShelved(alert, now)) ? texts.pausedForNow : texts.acknowledged2;
}

/** The levels, worst first, with the titles of their groups. Of an unsure one, its own title says why. */
export const TITLES = {
  act: texts.needsYou,
  silent: texts.silent,
  watch: texts.drifting,
  seen: texts.seenByYou,
  unsure: texts.stateUnknown,
  empty: texts.noSensor,
  open: texts.open,
  fine: texts.inOrder,
};

function silentLine(container, now) {
  const heard = Object.values(container.latest ?? {})
    .filter(Boolean)
    .map((latest) => Date.parse(latest.at));
  if (heard.length === 0) return texts.nothingHasBeenHeardFrom;
  return texts.nothingHeardForItMay(t.duration(now - Math.max(...heard)));
}

/** Words for a container in order. Darkness and moisture are named only if measured. */
function fineLine({ limits, latest }) {
  const good = [texts.warm];
  if (limits.light === 'inside') good.push(texts.dark);
  if (limits.dry === 'inside') good.push(texts.moist);
  const open = [
    ['light', 'light', texts.darkness],
    ['dry', 'humidity', texts.moisture],
  ].filter(([kind]) => limits[kind] === 'unknown');
  const sentence = `${capital(listed(good))}.`;
  if (open.length === 0) return sentence;
  const why = open.some(([, quantity]) => latest?.[quantity]) ? texts.noReadingNow : texts.notMeasured;
  return `${sentence} ${why}: ${listed(open.map(([, , word]) => word))}.`;
}

/** How long no temperature counts, and how much of it because of faults. */
export function missingHours({ gapHours, leftOutHours }) {
  const leftOut = leftOutOfHeat(leftOutHours);
  return texts.missing(t.hours(gapHours), leftOut ? ` (${leftOut})` : '');
}

/** Missing hours and the bounds of the heat; empty if nothing is missing. */
export function heatBounds(heat) {
  if (!heat || !(heat.gapHours > 0.05)) return '';
  return texts.betweenAnd(missingHours(heat), f.degreeHoursNumber(heat.lower), f.degreeHours(heat.upper));
}

export const batteryWord = (value) => texts.battery(f.volts(value));
