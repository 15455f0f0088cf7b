// Moments, days, ages and lengths of time in words. Pure.

import { dateForm } from './date-form.js';
import { UNKNOWN, known } from './format.js';
import { locale } from './language.js';
import { texts } from './texts.js';
import { browserZone, pageZone } from './zone.js';

const TIME_LENGTH = '00:00'.length;
const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;

/** A length of time in at most two parts. */
export function duration(ms) {
  if (!known(ms)) return UNKNOWN;
  const length = Math.max(0, ms);
  if (length < MINUTE) return texts.seconds(Math.round(length / 1000));
  if (length < HOUR) return texts.minutes(Math.floor(length / MINUTE));
  if (length < DAY) return parts(length, HOUR, texts.hours, MINUTE, texts.minutes);
  return parts(length, DAY, texts.days, HOUR, texts.hours);
}

function parts(length, big, inBig, small, inSmall) {
  const whole = Math.floor(length / big);
  const rest = Math.floor((length - whole * big) / small);
  return rest === 0 ? inBig(whole) : `${inBig(whole)} ${inSmall(rest)}`;
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
  if (ms < -MINUTE) return texts.inTime(duration(-ms));
  if (ms < 15_000) return texts.justNow;
  if (ms < MINUTE) return texts.sAgo(Math.floor(ms / 10_000) * 10);
  return texts.ago(duration(ms));
}

const dayText = (date, withYear, zone) =>
  dateForm(locale, {
    weekday: 'short',
    day: 'numeric',
    month: 'short',
    timeZone: zone,
    ...(withYear && { year: 'numeric' }),
  })
    .format(date)
    .replace(',', '');

export const clockTime = (at, zone = pageZone) =>
  dateForm(locale, { hour: '2-digit', minute: '2-digit', timeZone: zone }).format(new Date(at));

export const dayKey = (date, zone = pageZone) =>
  dateForm('en-CA', { year: 'numeric', month: '2-digit', day: '2-digit', timeZone: zone }).format(date);

/** A moment in the zone of the page: the time alone if it is today, with day and month otherwise. */
export function moment(at, now = Date.now(), zone = pageZone) {
  if (!at) return UNKNOWN;
  const date = new Date(at);
  const time = clockTime(at, zone);
  if (dayKey(date, zone) === dayKey(new Date(now), zone)) return time;
  const otherYear = dayKey(date, zone).slice(0, 4) !== dayKey(new Date(now), zone).slice(0, 4);
  return `${dayText(date, otherYear, zone)} ${time}`;
}

/** The same for tables: "today" before a bare time. */
export function stamp(at, now = Date.now(), zone = pageZone) {
  const text = moment(at, now, zone);
  return text.length === TIME_LENGTH ? texts.today(text) : text;
}

export const day = (key) => dayText(new Date(`${key}T12:00:00Z`), false, 'UTC');

/** The instant (ms) at which a calendar day begins in a zone; right across clock changes. */
export function startOfDay(key, zone = pageZone) {
  const name = `${key} ${zone}`;
  if (!starts.has(name)) starts.set(name, searchStart(key, zone));
  return starts.get(name);
}

/** Charts ask for the same days again with each zoom. */
const starts = new Map();

function searchStart(key, zone) {
  const utc = Date.parse(`${key}T00:00:00Z`);
  let guess = utc - zoneOffset(utc, zone);
  guess = utc - zoneOffset(guess, zone);
  // Where midnight itself is skipped, the day begins at the first minute that exists.
  return dayKey(new Date(guess), zone) < key ? guess + HOUR : guess;
}

function zoneOffset(ms, zone) {
  const fields = {};
  const format = dateForm('en-GB', {
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

/** A Date whose own year, month, day and clock are those of a moment in the zone, as axes want it. */
export function clockDate(ms, zone = pageZone) {
  if (zone === browserZone) return new Date(ms);
  const there = new Date(ms + zoneOffset(ms, zone));
  const date = [there.getUTCFullYear(), there.getUTCMonth(), there.getUTCDate()];
  const clock = [there.getUTCHours(), there.getUTCMinutes(), there.getUTCSeconds(), there.getUTCMilliseconds()];
  return new Date(...date, ...clock);
}

/** An instant as a control of date and time wants it; '' for none. */
export function inputOf(at, zone = pageZone) {
  if (!at) return '';
  const ms = typeof at === 'number' ? at : Date.parse(at);
  return new Date(ms + zoneOffset(ms, zone)).toISOString().slice(0, 16);
}

/**
 * The instant (ms) of a date and time that was typed. Of a time that comes twice, when clocks go back, the first; of a
 * time that is skipped, as many minutes after the change.
 */
export function typedTime(typed, zone = pageZone) {
  const utc = Date.parse(`${typed}Z`);
  if (Number.isNaN(utc)) return NaN;
  const [before, after] = [utc - DAY, utc + DAY].map((near) => utc - zoneOffset(near, zone));
  const fitting = [before, after].filter((at) => at + zoneOffset(at, zone) === utc);
  return fitting.length > 0 ? Math.min(...fitting) : before;
}

export const nextDay = (key) => new Date(Date.parse(`${key}T12:00:00Z`) + DAY).toISOString().slice(0, 10);
