// Moments, days, ages and lengths of time in words. Pure.

import { UNKNOWN, known } from './format.js';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;

/** A length of time in at most two parts. */
export function duration(ms) {
  if (!known(ms)) return UNKNOWN;
  const length = Math.max(0, ms);
  if (length < MINUTE) return `${Math.round(length / 1000)} s`;
  if (length < HOUR) return `${Math.floor(length / MINUTE)} min`;
  if (length < DAY) return parts(length, HOUR, 'h', MINUTE, 'min');
  return parts(length, DAY, length < 2 * DAY ? 'day' : 'days', HOUR, 'h');
}

function parts(length, big, bigName, small, smallName) {
  const whole = Math.floor(length / big);
  const rest = Math.floor((length - whole * big) / small);
  return rest === 0 ? `${whole} ${bigName}` : `${whole} ${bigName} ${rest} ${smallName}`;
}

/** Hours as a length, to the nearest minute, since 23.9999 h of readings are a day. */
export function hours(value) {
  if (!known(value)) return UNKNOWN;
  return duration(value * HOUR < MINUTE ? value * HOUR : Math.round(value * 60) * MINUTE);
}

/** How long ago, or "in …" for a moment more than a minute ahead of the clock. */
export function age(at, now) {
  const ms = now - Date.parse(at);
  if (!Number.isFinite(ms)) return UNKNOWN;
  if (ms < -MINUTE) return `in ${duration(-ms)}`;
  if (ms < 15_000) return 'just now';
  if (ms < MINUTE) return `${Math.floor(ms / 10_000) * 10} s ago`;
  return `${duration(ms)} ago`;
}

const dayText = (date, withYear, zone) =>
  new Intl.DateTimeFormat('en-GB', {
    weekday: 'short',
    day: 'numeric',
    month: 'short',
    timeZone: zone,
    ...(withYear && { year: 'numeric' }),
  })
    .format(date)
    .replace(',', '');

export const clockTime = (at, zone) =>
  new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit', timeZone: zone }).format(new Date(at));

export const dayKey = (date, zone) =>
  new Intl.DateTimeFormat('en-CA', { year: 'numeric', month: '2-digit', day: '2-digit', timeZone: zone }).format(date);

/** A moment in the browser's zone: the time alone if it is today, with day and month otherwise. */
export function moment(at, now = Date.now(), zone = undefined) {
  if (!at) return UNKNOWN;
  const date = new Date(at);
  const time = clockTime(at, zone);
  if (dayKey(date, zone) === dayKey(new Date(now), zone)) return time;
  const otherYear = dayKey(date, zone).slice(0, 4) !== dayKey(new Date(now), zone).slice(0, 4);
  return `${dayText(date, otherYear, zone)} ${time}`;
}

/** The same for tables: "today" before a bare time. */
export function stamp(at, now = Date.now(), zone = undefined) {
  const text = moment(at, now, zone);
  return text.length === 5 ? `today ${text}` : text;
}

export const day = (key) => dayText(new Date(`${key}T12:00:00Z`), false, 'UTC');

export const browserZone = () => Intl.DateTimeFormat().resolvedOptions().timeZone;

/** The instant (ms) at which a calendar day begins in a zone; right across clock changes. */
export function startOfDay(key, zone) {
  const utc = Date.parse(`${key}T00:00:00Z`);
  let guess = utc - zoneOffset(utc, zone);
  guess = utc - zoneOffset(guess, zone);
  // Where midnight itself is skipped, the day begins at the first minute that exists.
  return dayKey(new Date(guess), zone) < key ? guess + HOUR : guess;
}

function zoneOffset(ms, zone) {
  const fields = {};
  const format = new Intl.DateTimeFormat('en-GB', {
    timeZone: zone,
    hourCycle: 'h23',
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
    second: '2-digit',
  });
  for (const part of format.formatToParts(new Date(ms))) fields[part.type] = Number(part.value);
  return (
    Date.UTC(fields.year, fields.month - 1, fields.day, fields.hour, fields.minute, fields.second) -
    Math.floor(ms / 1000) * 1000
  );
}

export const nextDay = (key) => new Date(Date.parse(`${key}T12:00:00Z`) + DAY).toISOString().slice(0, 10);
