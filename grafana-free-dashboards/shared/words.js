// What the figures mean, said in words. Pure: a container or an alert in, sentences out.

import * as f from './format.js';

export const CONTAINER_KINDS = { jar: 'Jar', box: 'Box', bag: 'Bag', tray: 'Tray' };

/**
 * The conditions, in the order in which they matter to seeds that die of drying and cold: those first,
 * silence next because it may hide either, slight warmth last.
 */
export const CONDITIONS = {
  cold: {
    title: 'Too cold',
    group: 'are too cold',
    limitWord: 'below',
    worstWord: 'coldest',
    rank: 0,
    unitOf: f.temperature,
  },
  dry: {
    title: 'Too dry',
    group: 'are too dry',
    limitWord: 'below',
    worstWord: 'driest',
    rank: 1,
    unitOf: (v) => `${f.number(v)} %`,
  },
  silent: { title: 'Silent', group: 'are silent', limitWord: '', worstWord: '', rank: 2, unitOf: () => f.UNKNOWN },
  faulty: {
    title: 'Sensor hard to believe',
    group: 'have a sensor that is hard to believe',
    limitWord: '',
    worstWord: '',
    rank: 2,
    unitOf: () => f.UNKNOWN,
  },
  headingCold: {
    title: 'Heading for too cold',
    group: 'are heading for too cold',
    limitWord: '',
    worstWord: '',
    rank: 3,
    unitOf: () => f.UNKNOWN,
  },
  light: {
    title: 'Light inside',
    group: 'have light inside',
    limitWord: 'above',
    worstWord: 'brightest',
    rank: 3,
    unitOf: f.lux,
  },
  hot: {
    title: 'Too hot',
    group: 'are too hot',
    limitWord: 'above',
    worstWord: 'hottest',
    rank: 4,
    unitOf: f.temperature,
  },
  headingHot: {
    title: 'Heading for too hot',
    group: 'are heading for too hot',
    limitWord: '',
    worstWord: '',
    rank: 5,
    unitOf: () => f.UNKNOWN,
  },
  battery: {
    title: 'Battery low',
    group: 'are low on battery',
    limitWord: 'below',
    worstWord: 'lowest',
    rank: 6,
    unitOf: (v) => `${f.number(v, 2)} V`,
  },
};

export const conditionOf = (kind) =>
  CONDITIONS[kind] ?? {
    title: kind,
    group: kind,
    limitWord: 'beyond',
    worstWord: 'worst',
    rank: 9,
    unitOf: (v) => f.number(v, 1),
  };

/** Their values are counts and minutes, which say less than the words that come with them. */
const WORDS_ONLY = new Set(['faulty', 'headingCold', 'headingHot']);

const known = (value) => value !== null && value !== undefined;

export const isShelved = (alert, now) => known(alert.shelvedUntil) && Date.parse(alert.shelvedUntil) > now;
/** Open: still going on, or over but seen by nobody. */
export const isOpen = (alert) => alert.state === 'active' || !alert.acknowledged;

/** One alert as a sentence or two; the container's name stands elsewhere. */
export function alertDetail(alert, now) {
  const words = conditionOf(alert.kind);
  const began = Date.parse(alert.since ?? alert.raisedAt);
  const ended = alert.returnedAt ? Date.parse(alert.returnedAt) : now;
  const over = alert.state === 'returned';
  const lasting = f.duration(ended - began);
  const parts = [];
  if (WORDS_ONLY.has(alert.kind)) {
    parts.push(over ? `Lasted ${lasting}` : `For ${lasting}`);
    if (alert.detail) parts.push(alert.detail);
    if (!over && alert.forecastAt) parts.push(`outside at about ${f.moment(alert.forecastAt, now)}`);
    return capital(`${parts.join(', ')}.`);
  }
  if (alert.kind === 'silent')
    parts.push(
      over ? `Nothing was heard for ${lasting}` : `Nothing heard for ${lasting}, so nobody knows how it is inside`,
    );
  else if (known(alert.limit))
    parts.push(`${over ? 'Was ' : ''}${words.limitWord} ${words.unitOf(alert.limit)} for ${lasting}`);
  else parts.push(over ? `Lasted ${lasting}` : `For ${lasting}`);
  if (known(alert.worst) && alert.kind !== 'silent') parts.push(`${words.worstWord} ${words.unitOf(alert.worst)}`);
  if (known(alert.value) && alert.kind !== 'silent' && !over) parts.push(`now ${words.unitOf(alert.value)}`);
  return capital(`${parts.join(', ')}.`);
}

export function alertStanding(alert, now) {
  if (isShelved(alert, now)) return `Shelved until ${f.moment(alert.shelvedUntil, now)}; comes back by itself.`;
  if (alert.state === 'returned')
    return `Over since ${f.moment(alert.returnedAt, now)}. Nobody has acknowledged it yet.`;
  if (alert.acknowledged)
    return `Acknowledged ${f.age(alert.acknowledgedAt, now)}${alert.acknowledgedBy ? ` by ${alert.acknowledgedBy}` : ''}.`;
  return '';
}

export const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

/** Unshelved first, then those nobody has seen, then by what harms most, then the oldest. */
export function byUrgency(now) {
  const key = (alert) => [
    isShelved(alert, now) ? 1 : 0,
    alert.state === 'active' && !alert.acknowledged ? 0 : 1,
    alert.state === 'active' ? 0 : 1,
    conditionOf(alert.kind).rank,
    Date.parse(alert.since ?? alert.raisedAt),
  ];
  return (a, b) => {
    const left = key(a);
    const right = key(b);
    const at = left.findIndex((part, i) => part !== right[i]);
    return at < 0 ? a.id - b.id : left[at] - right[at];
  };
}

/**
 * One failed mat makes twenty containers cold; it should read as one thing. Groups active alerts of one kind whose
 * containers share a heat source; every other alert is a group of its own.
 */
export function groupAlerts(alerts, heatSourceOf, now) {
  const groups = new Map();
  for (const alert of [...alerts].sort(byUrgency(now))) {
    const source =
      alert.state === 'active' && !alert.acknowledged && !isShelved(alert, now) ? heatSourceOf(alert.container) : null;
    const key =
      source && (alert.kind === 'cold' || alert.kind === 'hot') ? `${alert.kind}/${source}` : `alert/${alert.id}`;
    if (!groups.has(key)) groups.set(key, { key, kind: alert.kind, source, alerts: [] });
    groups.get(key).alerts.push(alert);
  }
  return [...groups.values()];
}

/** A value counts as known only while it is fresh: what was warm five hours ago may be cold now. */
export function freshness(container, quantity, now, maxGapMinutes) {
  const latest = container.latest?.[quantity];
  if (!latest || !known(latest.value)) return { state: 'none', latest: null };
  const old = now - Date.parse(latest.at) > maxGapMinutes * 60_000;
  const silent = container.limits?.silent === 'alert';
  return { state: old || silent ? 'old' : 'fresh', latest };
}

const MISSING = {
  temperature: 'never measured',
  humidity: 'not measured',
  light: 'not measured',
  battery: 'not reported',
};

export function whyUnknown(container, quantity) {
  return (container.sensors ?? []).length === 0 ? 'no sensor placed' : MISSING[quantity];
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
  if (open) lines.push(`Open for a check until ${f.moment(container.opening.until, now)}; light counts as an opening.`);
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
  if (level === 'unsure')
    lines.push(
      temperature.state === 'none'
        ? 'A sensor is placed, but no temperature has come from it yet.'
        : 'Temperature comes, but has not been held against the band yet.',
    );
  return { level, title: TITLES[level], lines };
}

/** Where every alert going on has been acknowledged or shelved, somebody knows; else nothing. */
function handledWords(container, now) {
  const active = (container.alerts ?? []).filter((alert) => alert.state === 'active');
  if (active.length === 0 || active.some((alert) => !alert.acknowledged && !isShelved(alert, now))) return null;
  return active.some((alert) => isShelved(alert, now)) ? 'Shelved for now.' : 'Acknowledged.';
}

const TITLES = {
  act: 'Needs you',
  seen: 'Known',
  silent: 'Silent',
  watch: 'Drifting',
  open: 'Open',
  empty: 'No sensor',
  unsure: 'Not known',
  fine: 'In order',
};

function silentLine(container, now) {
  const heard = Object.values(container.latest ?? {})
    .filter(Boolean)
    .map((latest) => Date.parse(latest.at));
  if (heard.length === 0) return 'Nothing has been heard from its sensor yet.';
  return `Nothing heard for ${f.duration(now - Math.max(...heard))}. It may be cold or open: look at sensor and battery.`;
}

function limitLines(container, kind, now) {
  const state = container.limits?.[kind];
  if (state !== 'outside' && state !== 'alert') return [];
  const words = conditionOf(kind);
  const alert = (container.alerts ?? []).find((one) => one.kind === kind && one.state === 'active');
  const value = container.latest?.[QUANTITY[kind]]?.value;
  const limit = limitOf(container, kind);
  const distance = known(value) && known(limit) ? distanceOf(kind, Math.abs(value - limit)) : null;
  const place = `${distance && beyond(kind, value, limit) ? `${distance} ` : ''}${words.limitWord} ${words.unitOf(limit)}`;
  if (state === 'outside') return [`${words.title}, just now: ${place}. An alert follows if it lasts.`];
  const since = alert ? `, for ${f.duration(now - Date.parse(alert.since))}` : '';
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

/** Warm for certain; dark and moist only as far as something measures them. */
function fineLine({ limits, latest }) {
  const good = ['warm'];
  if (limits.light === 'inside') good.push('dark');
  if (limits.dry === 'inside') good.push('moist');
  const open = [
    ['light', 'light', 'darkness'],
    ['dry', 'humidity', 'moisture'],
  ].filter(([kind]) => limits[kind] === 'unknown');
  const told = `${capital(listed(good))}.`;
  if (open.length === 0) return told;
  const why = open.some(([, quantity]) => latest?.[quantity]) ? 'Not known now' : 'Not measured';
  return `${told} ${why}: ${listed(open.map(([, , word]) => word))}.`;
}

export function listed(items) {
  return items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;
}

/** What the gaps leave open about a sum of heat, or nothing if there is nothing to say. */
export function heatBounds(heat) {
  if (!heat || !(heat.gapHours > 0.05)) return '';
  return `${f.hours(heat.gapHours)} missing: between ${f.degreeHoursNumber(heat.lower)} and ${f.degreeHours(heat.upper)}`;
}

export const batteryWord = (value) => `battery ${f.volts(value)}`;

/** What the sender should change, from the reason the service gives. */
export function remedyFor(reject) {
  const reason = reject.reason.toLowerCase();
  const found = REMEDIES.find(([pattern]) => pattern.test(reason));
  return found ? found[1] : 'Compare topic and payload with the example in step 1 of the guide on the Shelf.';
}

const REMEDIES = [
  [
    /sensor's topic|sensor’s topic/,
    'Publish to the root topic, a slash and the sensor’s name; for anything else, add a mapping rule to the configuration.',
  ],
  [
    /sensor name|sensor's name|name of the sensor/,
    'Rename the sensor in its own settings: 1 to 64 letters, digits, _ or -, and no spaces.',
  ],
  [
    /retain/,
    'Publish without the “retain” flag: the broker keeps such a message and hands it out later as if it were new.',
  ],
  [
    /no quantity|quantity is|empty array/,
    'Use the names temperature, humidity, light and battery, with plain numbers in °C, %, lux and V.',
  ],
  [/empty payload/, 'Let the device send only when it has measured.'],
  [/utf-8/, 'Send plain text in UTF-8; binary payloads need a mapping rule and a device that can send text.'],
  [
    /\bage\b|\bat\b.*(time|clock|instant|future|1970)|set the (clock|sensor's clock)/,
    'Set the device’s clock, or send “age”, the seconds since measuring, in place of “at”.',
  ],
  [/topic/, 'See in the configuration which topics are read, and add a mapping rule for this one.'],
  [
    /json|unexpected|parse|syntax/,
    'Send a complete JSON object. A payload cut short often means that the device’s message buffer is too small.',
  ],
  [/too (large|long|big)|size/, 'Send fewer readings in one message.'],
  [
    /outside|range|implausible|plausible|power-on|fault/,
    'The sensor reports a fault or a wrong unit. Check wiring and unit; 85 °C and −127 °C are typical of a loose wire.',
  ],
  [/quantit/, 'Use the names temperature, humidity, light and battery, in °C, %, lux and V.'],
  [/number|numeric/, 'Send plain numbers with a decimal point, without a unit.'],
];
