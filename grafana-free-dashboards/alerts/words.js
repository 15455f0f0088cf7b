// Sentences of the Alerts page. Pure: what the service answers in, words out.

import * as f from '../shared/format.js';
import { capital, conditionOf } from '../shared/words.js';

const TRANSITIONS = {
  raised: 'Raised',
  returned: 'Back to normal',
  acknowledged: 'Acknowledged',
  shelved: 'Shelved',
  unshelved: 'Back from the shelf',
  outOfService: 'Taken out of service',
  inService: 'Back in service',
  foundLate: 'Found late, in readings that came afterwards; nobody was told',
};

/** Who did it and why; the service's own doings name nobody. */
export function transitionWords({ what, by, note }) {
  const done = `${TRANSITIONS[what] ?? what}${by ? ` by ${by}` : ''}`;
  return note ? `${done}: ${note}` : done;
}

/** When it happened, and when it was noted if that was more than a minute later. */
export function transitionTime({ at, recordedAt }, now) {
  const late = Date.parse(recordedAt) - Date.parse(at);
  return late > 60_000 ? `${f.stamp(at, now)}, noted ${f.stamp(recordedAt, now)}` : f.stamp(at, now);
}

export function historyLine(alert, now) {
  const since = Date.parse(alert.since ?? alert.raisedAt);
  const length = f.duration((alert.returnedAt ? Date.parse(alert.returnedAt) : now) - since);
  return alert.returnedAt
    ? `${f.stamp(since, now)}, for ${length}`
    : `since ${f.stamp(since, now)}, still going on (${length})`;
}

export const newestFirst = (alerts) =>
  [...alerts].sort((a, b) => Date.parse(b.raisedAt) - Date.parse(a.raisedAt) || b.id - a.id);

/** The total of a span in one sentence. */
export function rateWords({ raised, perDay, from, to }) {
  const span = f.duration(Date.parse(to) - Date.parse(from));
  if (raised === 0) return `No alert was raised in the last ${span}.`;
  return `${f.count(raised, 'alert')} in the last ${span}: ${f.number(perDay, 1)} a day.`;
}

/** What is wrong with the alerts themselves, a sentence each; empty if they are as they should be. */
export function troubleWords({ mostInTenMinutes, floods, stale }) {
  const said = [];
  if (floods.length > 0)
    said.push(
      `${f.count(floods.length, 'flood')}: up to ${f.number(mostInTenMinutes)} alerts within ten minutes, more than a person can follow.`,
    );
  if (stale > 0)
    said.push(
      `${f.count(stale, 'alert')} stale: going on for more than a day, so nobody reads ${stale === 1 ? 'it' : 'them'} any more. Mend the cause, or take ${stale === 1 ? 'it' : 'them'} out of service.`,
    );
  return said;
}

export function groupMarks({ chattering, repeating, stale }) {
  const marks = [];
  if (chattering) marks.push('chattering: it came back again and again within minutes');
  else if (repeating) marks.push('repeating');
  if (stale > 0) marks.push(`${f.number(stale)} stale`);
  return capital(marks.join('; '));
}

/** Which setting would have kept it quiet, from a replay of the stored readings. */
export function hintWords(hint, kind) {
  if (!hint) return '';
  const change = {
    deadband: () => `a deadband of ${deadbandWords(hint.deadband, kind)}`,
    onDelay: () => `an on-delay of ${f.duration(hint.onDelaySeconds * 1000)}`,
    offDelay: () => `an off-delay of ${f.duration(hint.offDelaySeconds * 1000)}`,
  }[hint.setting]?.();
  if (!change) return hint.text;
  return `With ${change} it would have been raised ${times(hint.raisedAfter)} instead of ${times(hint.raisedBefore)}.`;
}

const times = (n) => (n === 1 ? 'once' : `${f.number(n)} times`);

function deadbandWords(value, kind) {
  if (kind === 'cold' || kind === 'hot') return f.temperatureDifference(value, 2);
  return conditionOf(kind).unitOf(value);
}

const STATES = { waiting: 'waiting', delivered: 'delivered', failed: 'FAILED' };

/** How one notice fared with one notifier. */
export function deliveryWords(delivery, now) {
  const { notifier, state, attempts, nextAt, settledAt, words } = delivery;
  const parts = [`${notifier}: ${STATES[state] ?? state}`];
  if (settledAt) parts[0] += ` ${f.stamp(settledAt, now)}`;
  if (attempts > 1 || (state !== 'delivered' && attempts > 0)) parts.push(`after ${f.count(attempts, 'try', 'tries')}`);
  if (nextAt) parts.push(`next try ${f.stamp(nextAt, now)}`);
  return `${parts.join(', ')}${words && state !== 'delivered' ? `. ${capital(words)}` : ''}`;
}

const worst = (sent) =>
  sent.deliveries.some((one) => one.state === 'failed')
    ? 0
    : sent.deliveries.some((one) => one.state === 'waiting')
      ? 1
      : 2;

/** What did not arrive comes first, then what is still on its way, each with the newest first. */
export const failedFirst = (notices) =>
  [...notices].sort(
    (a, b) =>
      worst(a) - worst(b) ||
      Date.parse(b.notice.createdAt) - Date.parse(a.notice.createdAt) ||
      b.notice.id - a.notice.id,
  );

export const hasFailed = (sent) => worst(sent) === 0;

const NOTIFIERS = { page: 'open pages', email: 'e-mail', webhook: 'webhook', mqtt: 'MQTT' };

export function notifierWords(notifier, now) {
  const parts = [
    notifier.onlyForEscalation ? 'only when nobody acknowledges in time' : '',
    notifier.lastDeliveredAt ? `last delivered ${f.stamp(notifier.lastDeliveredAt, now)}` : 'nothing delivered yet',
    notifier.waiting > 0 ? `${f.number(notifier.waiting)} waiting` : '',
    notifier.failed > 0 ? `${f.number(notifier.failed)} failed` : '',
  ];
  return `${capital(parts.filter(Boolean).join(', '))}.`;
}

export const notifierTitle = ({ name, kind, target }) =>
  `${name}${name === kind ? '' : ` (${NOTIFIERS[kind] ?? kind})`}: ${target}`;

export const testWords = ({ delivered, words }) =>
  (delivered ? `It arrived: ${words}.` : `It did not arrive: ${words}.`).replace(/\.\.$/, '.');

/** What this device does about notices, from whether it is switched on and what the browser allows. */
export function tellingWords(on, allowed) {
  if (!on)
    return 'This device stays quiet. A page must be open to tell; for the night, set up e-mail or another notifier.';
  if (allowed === 'granted')
    return 'A sound and a notification, as long as one of these pages is open and the device awake.';
  if (allowed === 'impossible')
    return 'A sound only, as long as one of these pages is open and the device awake: the browser allows notifications only over https or on the machine itself.';
  return 'A sound only, as long as one of these pages is open and the device awake: notifications are not allowed in the browser’s settings.';
}

/** Minutes as typed, and what is wrong with them. */
export function readMinutes(typed) {
  const minutes = Number(typed.trim().replace(',', '.'));
  if (typed.trim() === '' || !Number.isFinite(minutes) || minutes <= 0 || minutes > 7 * 24 * 60) {
    return { minutes: null, problem: 'For how long? Give minutes, more than 0 and at most 10080 (a week).' };
  }
  return { minutes, problem: null };
}
