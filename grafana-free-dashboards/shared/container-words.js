// What the figures mean, said in words. Pure: a container or an alert in, sentences out.

import { isShelved } from './alert-words.js';
import { leftOutOfHeat } from './fault-words.js';
import * as f from './format.js';
import { limitLines } from './limit-words.js';
import { QUANTITIES } from './quantities.js';
import { capital, known, listed } from './text.js';
import * as t from './time-format.js';

export const CONTAINER_KINDS = { jar: 'Jar', box: 'Box', bag: 'Bag', tray: 'Tray' };

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
    ? 'no sensor placed'
    : (QUANTITIES.find((one) => one.key === quantity)?.missing ?? 'not reported');
}

/**
 * How a container is doing.
 * level: 'act' (an alert), 'silent', 'seen' (alerts, all acknowledged or shelved), 'watch' (outside, not yet an alert), 'open', 'empty' (no sensor), 'unsure', 'fine'
 */
export function standing(container, now, maxGapMinutes) {
  if ((container.sensors ?? []).length === 0) {
    return { level: 'empty', title: 'No sensor', lines: ['No sensor is placed here, so nothing is known.'] };
  }
  const lines = [];
  const limits = container.limits ?? {};
  const temperature = freshness(container, 'temperature', now, maxGapMinutes);
  const quiet = limits.silent === 'alert' || temperature.state === 'old';
  if (quiet) lines.push(silentLine(container, now));
  const open = Boolean(container.opening) && Date.parse(container.opening.until) > now;
  for (const kind of ['cold', 'dry', 'light', 'hot']) {
    if (!(open && kind === 'light')) lines.push(...limitLines(container, kind, now));
  }
  if (open) lines.push(`Open for a check until ${t.moment(container.opening.until, now)}; light counts as an opening.`);
  const values = Object.values(limits);
  const handled = values.includes('alert') ? handledWords(container, now) : null;
  if (handled) lines.push(handled);
  const level = quiet
    ? 'silent'
    : values.includes('alert')
      ? handled
        ? 'seen'
        : 'act'
      : open
        ? 'open'
        : values.includes('outside')
          ? 'watch'
          : temperature.state === 'fresh' && limits.cold === 'inside' && limits.hot === 'inside'
            ? 'fine'
            : 'unsure';
  if (level === 'fine') lines.push(fineLine(container));
  if (level === 'unsure' && temperature.state !== 'none') {
    lines.push('Its temperature was not compared with its limits yet.');
    return { level, title: 'Not checked yet', lines };
  }
  if (level === 'unsure') lines.push('A sensor is placed, but no temperature has come from it yet.');
  return { level, title: TITLES[level], lines };
}

/** Words if every active alert was acknowledged or shelved; else null. */
function handledWords(container, now) {
  const active = (container.alerts ?? []).filter((alert) => alert.state === 'active');
  if (active.length === 0 || active.some((alert) => !alert.acknowledged && !isShelved(alert, now))) return null;
  return active.some((alert) => isShelved(alert, now)) ? 'Paused for now.' : 'Acknowledged.';
}

const TITLES = {
  act: 'Needs you',
  seen: 'Seen by you',
  silent: 'Silent',
  watch: 'Drifting',
  open: 'Open',
  empty: 'No sensor',
  unsure: 'No reading yet',
  fine: 'In order',
};

function silentLine(container, now) {
  const heard = Object.values(container.latest ?? {})
    .filter(Boolean)
    .map((latest) => Date.parse(latest.at));
  if (heard.length === 0) return 'Nothing has been heard from its sensor yet.';
  return `Nothing heard for ${t.duration(now - Math.max(...heard))}. It may be cold or open: look at sensor and battery.`;
}

/** Words for a container in order. Darkness and moisture are named only if measured. */
function fineLine({ limits, latest }) {
  const good = ['warm'];
  if (limits.light === 'inside') good.push('dark');
  if (limits.dry === 'inside') good.push('moist');
  const open = [
    ['light', 'light', 'darkness'],
    ['dry', 'humidity', 'moisture'],
  ].filter(([kind]) => limits[kind] === 'unknown');
  const sentence = `${capital(listed(good))}.`;
  if (open.length === 0) return sentence;
  const why = open.some(([, quantity]) => latest?.[quantity]) ? 'No reading now' : 'Not measured';
  return `${sentence} ${why}: ${listed(open.map(([, , word]) => word))}.`;
}

/** How long no temperature counts, and how much of it because of faults. */
export function missingHours({ gapHours, leftOutHours }) {
  const leftOut = leftOutOfHeat(leftOutHours);
  return `${t.hours(gapHours)} missing${leftOut ? ` (${leftOut})` : ''}`;
}

/** Missing hours and the bounds of the heat; empty if nothing is missing. */
export function heatBounds(heat) {
  if (!heat || !(heat.gapHours > 0.05)) return '';
  return `${missingHours(heat)}: between ${f.degreeHoursNumber(heat.lower)} and ${f.degreeHours(heat.upper)}`;
}

export const batteryWord = (value) => `battery ${f.volts(value)}`;
