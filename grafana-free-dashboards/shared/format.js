// Numbers, units, moments and lengths of time in words. Pure but for the remembered choice of unit.

export const UNKNOWN = '–';
const UNIT_KEY = 'tepidarium.temperatureUnit';
const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;
/** From here on a humidity sensor in a wet container says 'wet', whatever digits it sends. */
export const SATURATED_FROM = 95;

let unit = rememberedUnit();

function rememberedUnit() {
  try {
    return globalThis.localStorage?.getItem(UNIT_KEY) === 'F' ? 'F' : 'C';
  } catch {
    return 'C'; // storage may be forbidden; the choice then lasts as long as the page
  }
}

export const temperatureUnit = () => unit;
export const unitName = () => `°${unit}`;

export function setTemperatureUnit(chosen) {
  unit = chosen === 'F' ? 'F' : 'C';
  try {
    globalThis.localStorage?.setItem(UNIT_KEY, unit);
  } catch {
    /* see above */
  }
}

const known = (value) => value !== null && value !== undefined && Number.isFinite(value);

/** °C into the unit that the reader chose, and back. */
export const toUnit = (celsius) => (known(celsius) ? (unit === 'F' ? celsius * 1.8 + 32 : celsius) : null);
export const fromUnit = (shown) => (known(shown) ? round(unit === 'F' ? (shown - 32) / 1.8 : shown, 3) : null);
/** A difference in °C, or degree-hours in °C·h: no offset. */
export const differenceToUnit = (celsius) => (known(celsius) ? (unit === 'F' ? celsius * 1.8 : celsius) : null);

export const differenceFromUnit = (shown) => (known(shown) ? round(unit === 'F' ? shown / 1.8 : shown, 3) : null);

export function round(value, digits) {
  const scale = 10 ** digits;
  return Math.round(value * scale) / scale;
}

/** Fixed digits, a true minus sign, no minus zero, thin spaces from ten thousand up. */
export function number(value, digits = 0) {
  if (!known(value)) return UNKNOWN;
  const text = Math.abs(value).toFixed(digits);
  const [whole, fraction] = text.split('.');
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, '\u202f') : whole;
  const sign = value < 0 && Number(text) !== 0 ? '\u2212' : '';
  return sign + grouped + (fraction ? `.${fraction}` : '');
}

export const temperature = (celsius, digits = 1) =>
  known(celsius) ? `${number(toUnit(celsius), digits)} ${unitName()}` : UNKNOWN;
export const temperatureDifference = (celsius, digits = 1) =>
  known(celsius) ? `${number(differenceToUnit(celsius), digits)} ${unitName()}` : UNKNOWN;

/** With its sign, for a change. */
export function temperatureChange(celsius) {
  if (!known(celsius)) return UNKNOWN;
  return (celsius > 0 ? '+' : '') + temperatureDifference(celsius);
}

export function degreeHours(value) {
  if (!known(value)) return UNKNOWN;
  return `${degreeHoursNumber(value)} ${unitName()}·h`;
}

export function degreeHoursNumber(value) {
  const shown = differenceToUnit(value);
  return number(shown, Math.abs(shown ?? 0) < 100 ? 1 : 0);
}

export function humidity(percent) {
  if (!known(percent)) return UNKNOWN;
  return percent >= SATURATED_FROM ? 'saturated' : `${number(percent)} %`;
}

export function humidityChange(percent) {
  if (!known(percent)) return UNKNOWN;
  return `${percent > 0 ? '+' : ''}${number(percent)} %`;
}

export function lux(value) {
  if (!known(value)) return UNKNOWN;
  return `${number(value, value > 0 && value < 10 && !Number.isInteger(value) ? 1 : 0)} lux`;
}

export function luxHours(value) {
  if (!known(value)) return UNKNOWN;
  const digits = value >= 100 || value === 0 ? 0 : value >= 1 ? 1 : 2;
  return `${number(value, digits)} lux·h`;
}

export const volts = (value) => (known(value) ? `${number(value, 2)} V` : UNKNOWN);

/** A share as percent; all but whole is never rounded up to 'all', nor a trace down to 'none'. */
export function share(fraction) {
  if (!known(fraction)) return UNKNOWN;
  if (fraction > 0.999 && fraction < 1) return 'over 99.9 %';
  if (fraction > 0 && fraction < 0.001) return 'under 0.1 %';
  return `${number(fraction * 100, fraction === 0 || fraction === 1 ? 0 : 1)} %`;
}

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

/** How long ago; a moment ahead of the clock is said to be ahead rather than fresh. */
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

const dayKey = (date, zone) =>
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

/** The same for tables, where a bare time among dates would puzzle. */
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

export const count = (n, one, many = `${one}s`) => `${number(n)} ${n === 1 ? one : many}`;
