// Texts of the accounts of sensors.

import { count } from '../shared/format.js';
import { texts } from './texts.js';

const ANONYMOUS = {
  never: texts.everySensorNeedsAnAccount,
  loopback: texts.sensorsOnOtherMachinesNeed,
  everywhere: texts.sensorsAreAcceptedWithoutAn,
};

/** Which sensors need an account. */
export function anonymousWords({ embedded, anonymous }) {
  return embedded ? ANONYMOUS[anonymous] : texts.yourOwnBrokerDecidesWhich;
}

/** What was refused within the last hour, with the remedy; empty if nothing was. */
export function refusedWords({ count: refused, clientId, address }) {
  if (refused === 0) return '';
  const client = clientId === '' ? texts.aClientWithoutAnId : `“${clientId}”`;
  return texts.refusedWithoutAnAccountWithin(count(refused, texts.connectionCount), client, address);
}

export function accountWords({ topics, reads }) {
  return [topics.length > 0 && texts.publishesTo(topics.join(', ')), reads.length > 0 && texts.reads(reads.join(', '))]
    .filter(Boolean)
    .join(' · ');
}

/** The topics in a field; undefined if it is empty. */
export function topicsOf(text) {
  const topics = text.split(/[\s,]+/).filter((topic) => topic !== '');
  return topics.length > 0 ? topics : undefined;
}
