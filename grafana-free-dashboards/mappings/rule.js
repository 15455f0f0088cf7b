// Builds a mapping rule out of choices, and finds the fields and bytes of a message. Pure.

import { quantityOf } from '../shared/fault-words.js';
import { inSentence } from '../shared/text.js';
import { texts } from './texts.js';

const MAX_FIELDS = 300;

/** One step of a JSON Pointer (RFC 6901). */
const step = (name) => `/${String(name).replaceAll('~', '~0').replaceAll('/', '~1')}`;

/** The payload as JSON; undefined if it is not an object or array. */
export function parsed(text) {
  try {
    const value = JSON.parse(text ?? '');
    return value !== null && typeof value === 'object' ? value : undefined;
  } catch {
    return undefined;
  }
}

/** The single values of a JSON value: `pointer`, `depth`, `name`, `value`; `value` is undefined for a branch. */
export function fieldsOf(json) {
  const found = [];
  const visit = (value, pointer, depth) => {
    for (const [name, inner] of Object.entries(value)) {
      if (found.length >= MAX_FIELDS) return;
      const branch = inner !== null && typeof inner === 'object';
      const place = pointer + step(name);
      found.push({ pointer: place, depth, name, value: branch ? undefined : inner });
      if (branch) visit(inner, place, depth + 1);
    }
  };
  if (json !== undefined) visit(json, '', 0);
  return found;
}

/** What a text can be: 'hex', 'base64', or null. Short words are no bytes. */
export function encodingOf(text) {
  if (typeof text !== 'string') return null;
  const plain = text.trim();
  if (/^(0x)?([0-9a-f]{2}[\s:]?){2,}$/i.test(plain)) return 'hex';
  return /^[A-Za-z0-9+/_-]{4,}={0,2}$/.test(plain) && plain.length % 4 !== 1 && /[0-9+/=_-]|[A-Z].*[a-z]/.test(plain)
    ? 'base64'
    : null;
}

/** The bytes of a text as numbers; an empty list if it is not in the encoding. */
export function bytesOf(text, encoding) {
  try {
    if (encoding === 'hex') {
      const digits = text.trim().replace(/^0x|[\s:]/gi, '');
      return digits.match(/../g)?.map((pair) => Number.parseInt(pair, 16)) ?? [];
    }
    const plain = text.trim().replaceAll('-', '+').replaceAll('_', '/');
    return [...atob(plain)].map((character) => character.charCodeAt(0));
  } catch {
    return [];
  }
}

/** What the page knows of a message: its fields, or the bytes of a payload that is no text; nothing is chosen yet. */
export function workOn(message) {
  const { topic, text, base64 } = message;
  const json = parsed(text);
  const whole = text === null ? [] : [{ pointer: '', depth: 0, name: 'payload', value: unquoted(text) }];
  const raw = text === null;
  return {
    message,
    levels: levelsOf(topic),
    fields: json === undefined ? whole : fieldsOf(json),
    values: {},
    bytes: raw ? { encoding: 'raw' } : null,
    packed: raw ? bytesOf(base64, 'base64') : [],
    at: null,
    selected: null,
  };
}

const unquoted = (text) => text.trim().replace(/^"(.*)"$/, '$1');

/** The levels of a topic with their roles: 'same', 'any' or 'sensor'. The last level but one is often the sensor. */
export function levelsOf(topic) {
  const names = topic.split('/');
  const sensor = names.length > 1 ? names.length - 2 : 0;
  return names.map((name, i) => ({ name, role: i === sensor ? 'sensor' : 'same' }));
}

/** The topic filter of a rule. */
export function topicOf(levels) {
  const text = { sensor: () => '{sensor}', any: () => '+', same: ({ name }) => name };
  return levels.map((level) => text[level.role](level)).join('/');
}

/** The rule for the API. `values` holds one entry per quantity, `bytes` the place of packed bytes or null. */
export function ruleOf({ levels, values, bytes, at }) {
  const rule = { topic: topicOf(levels) };
  for (const [quantity, value] of Object.entries(values)) {
    rule[quantity] = Object.fromEntries(Object.entries(value).filter(([, part]) => part !== null && part !== ''));
  }
  if (bytes && Object.values(values).some(({ firstByte }) => firstByte !== undefined)) rule.bytes = bytes;
  if (at) rule.at = at;
  return rule;
}

/** A rule in words: its topic, then its quantities. */
export function ruleWords(rule, quantities) {
  const used = quantities
    .filter(({ quantity }) => rule[quantity])
    .map(({ quantity }) => placeWords(quantity, rule[quantity]));
  return `${rule.topic}: ${used.join(', ')}`;
}

/** Where a value is, such as "temperature at /temp in °F". */
export function placeWords(quantity, value) {
  const packed = value.firstByte !== null && value.firstByte !== undefined;
  const length = value.length ?? 1;
  const last = value.firstByte + length - 1;
  const place = packed
    ? length === 1
      ? texts.byte(value.firstByte)
      : texts.bytesTo(value.firstByte, last)
    : value.pointer || texts.theWholePayload;
  return texts.at(inSentence(quantityOf(quantity)), place, value.unit ? texts.inWord(value.unit) : '');
}

const filtered = (values, keep) => Object.fromEntries(Object.entries(values).filter(([, value]) => keep(value)));

/** The values without the one at a field, or the one that starts at a byte. */
export function without(values, { field, index }) {
  const isHere = (value) =>
    field ? value.firstByte === undefined && value.pointer === field.pointer : value.firstByte === index;
  return filtered(values, (value) => !isHere(value));
}

/** The values without those of packed bytes, and without the text that holds the bytes. */
export function withoutBytes(values, pointer) {
  return filtered(values, (value) => value.firstByte === undefined && value.pointer !== pointer);
}
