// Words about notices and those who send them. Pure.

import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';
import { capital } from '../shared/text.js';
import { texts } from './texts.js';

const STATES = {
  waiting: texts.waiting,
  delivered: texts.delivered,
  failed: texts.failed,
};

const NOTIFIERS = { page: texts.openPages, email: texts.eMail, webhook: texts.webhook, mqtt: texts.mqtt };

/** A notifier has the name of its kind, or one from the settings file. */
const nameOf = (notifier) => NOTIFIERS[notifier] ?? notifier;

/** The state of one notice at one notifier. */
export function deliveryWords(delivery, now) {
  const { state, attempts, nextAt, settledAt, words } = delivery;
  const name = nameOf(delivery.notifier);
  if (state === 'perhaps-sent') return `${name}: ${texts.perhapsSent(t.stamp(settledAt, now))}`;
  const parts = [`${name}: ${STATES[state] ?? state}`];
  if (settledAt) parts[0] += ` ${t.stamp(settledAt, now)}`;
  if (attempts > 1 || (state !== 'delivered' && attempts > 0))
    parts.push(texts.after(f.count(attempts, texts.tryWordCount)));
  if (nextAt) parts.push(texts.nextTry(t.stamp(nextAt, now)));
  return `${parts.join(', ')}${words && state !== 'delivered' ? `. ${capital(words)}` : ''}`;
}

const worst = (sent) =>
  sent.deliveries.some((one) => one.state === 'failed')
    ? 0
    : sent.deliveries.some((one) => one.state === 'waiting' || one.state === 'perhaps-sent')
      ? 1
      : 2;

/** Sorts notices: failed ones first, then those waiting or perhaps sent, then the others; newest first in each group. */
export const failedFirst = (notices) =>
  [...notices].sort(
    (a, b) =>
      worst(a) - worst(b) ||
      Date.parse(b.notice.createdAt) - Date.parse(a.notice.createdAt) ||
      b.notice.id - a.notice.id,
  );

export const hasFailed = (sent) => worst(sent) === 0;

export function notifierWords(notifier, now) {
  const parts = [
    notifier.onlyForEscalation ? texts.onlyWhenNobodyAcknowledgesIn : '',
    notifier.lastDeliveredAt ? texts.lastDelivered(t.stamp(notifier.lastDeliveredAt, now)) : texts.nothingDeliveredYet,
    notifier.waiting > 0 ? texts.waiting2(f.number(notifier.waiting)) : '',
    notifier.failed > 0 ? texts.failed2(f.number(notifier.failed)) : '',
  ];
  return `${capital(parts.filter(Boolean).join(', '))}.`;
}

export const notifierTitle = ({ name, kind, target }) =>
  `${capital(nameOf(name))}${name === kind ? '' : ` (${nameOf(kind)})`}: ${target}`;

export const testWords = ({ delivered, words }) =>
  (delivered ? texts.itArrived(words) : texts.itDidNotArrive(words)).replace(/\.\.$/, '.');

/** Says whether this device tells of notices, by its switch and the browser's permission. */
export function tellingWords(on, allowed) {
  if (!on) return texts.thisDeviceStaysQuietA;
  if (allowed === 'granted') return texts.aSoundAndANotification;
  if (allowed === 'impossible') return texts.aSoundOnlyAsLong;
  return texts.aSoundOnlyAsLong2;
}
