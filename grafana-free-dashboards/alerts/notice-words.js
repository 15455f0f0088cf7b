// Words about notices and those who send them. Pure.

import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';
import { capital } from '../shared/text.js';

const STATES = { waiting: 'waiting', delivered: 'delivered', failed: 'FAILED' };

/** The state of one notice at one notifier. */
export function deliveryWords(delivery, now) {
  const { notifier, state, attempts, nextAt, settledAt, words } = delivery;
  const parts = [`${notifier}: ${STATES[state] ?? state}`];
  if (settledAt) parts[0] += ` ${t.stamp(settledAt, now)}`;
  if (attempts > 1 || (state !== 'delivered' && attempts > 0)) parts.push(`after ${f.count(attempts, 'try', 'tries')}`);
  if (nextAt) parts.push(`next try ${t.stamp(nextAt, now)}`);
  return `${parts.join(', ')}${words && state !== 'delivered' ? `. ${capital(words)}` : ''}`;
}

const worst = (sent) =>
  sent.deliveries.some((one) => one.state === 'failed')
    ? 0
    : sent.deliveries.some((one) => one.state === 'waiting')
      ? 1
      : 2;

/** Sorts notices: failed ones first, then waiting ones, then the others; newest first in each group. */
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
    notifier.lastDeliveredAt ? `last delivered ${t.stamp(notifier.lastDeliveredAt, now)}` : 'nothing delivered yet',
    notifier.waiting > 0 ? `${f.number(notifier.waiting)} waiting` : '',
    notifier.failed > 0 ? `${f.number(notifier.failed)} failed` : '',
  ];
  return `${capital(parts.filter(Boolean).join(', '))}.`;
}

export const notifierTitle = ({ name, kind, target }) =>
  `${name}${name === kind ? '' : ` (${NOTIFIERS[kind] ?? kind})`}: ${target}`;

export const testWords = ({ delivered, words }) =>
  (delivered ? `It arrived: ${words}.` : `It did not arrive: ${words}.`).replace(/\.\.$/, '.');

/** Says whether this device tells of notices, by its switch and the browser's permission. */
export function tellingWords(on, allowed) {
  if (!on)
    return 'This device stays quiet. A page must be open to tell; for the night, set up e-mail or another notifier.';
  if (allowed === 'granted')
    return 'A sound and a notification, as long as one of these pages is open and the device awake.';
  if (allowed === 'impossible')
    return 'A sound only, as long as one of these pages is open and the device awake: the browser allows notifications only over https or on the machine itself.';
  return 'A sound only, as long as one of these pages is open and the device awake: notifications are not allowed in the browser’s settings.';
}
