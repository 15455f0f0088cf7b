// Texts of the accounts of sensors.

import { count } from '../shared/format.js';

const ANONYMOUS = {
  never: 'Every sensor needs an account.',
  loopback: 'Sensors on other machines need an account. Those on this machine need none.',
  everywhere:
    'Sensors are accepted without an account from every address. When each sensor has one, set anonymousSensors: loopback.',
};

/** Which sensors need an account. */
export function anonymousWords({ embedded, anonymous }) {
  return embedded ? ANONYMOUS[anonymous] : 'Your own broker decides which sensors it accepts. Make accounts there.';
}

/** What was refused within the last hour, with the remedy; empty if nothing was. */
export function refusedWords({ count: refused, clientId, address }) {
  if (refused === 0) return '';
  const client = clientId === '' ? 'a client without an id' : `“${clientId}”`;
  return `${count(refused, 'connection')} refused without an account within the last hour, the latest from ${client} at ${address}. If it is yours, make an account for it.`;
}

export function accountWords({ topics, reads }) {
  return [topics.length > 0 && `publishes to ${topics.join(', ')}`, reads.length > 0 && `reads ${reads.join(', ')}`]
    .filter(Boolean)
    .join(' · ');
}

/** The topics in a field; undefined if it is empty. */
export function topicsOf(text) {
  const topics = text.split(/[\s,]+/).filter((topic) => topic !== '');
  return topics.length > 0 ? topics : undefined;
}
