// Says what became of the notices about an alert. Pure.

import { moment } from '../shared/time-format.js';
import { deliveryWords } from './notice-words.js';
import { texts } from './texts.js';

const KINDS = {
  raised: texts.toldRaised,
  returned: texts.toldReturned,
  reminder: texts.toldReminder,
  escalation: texts.toldEscalation,
};

/** Lines, newest notice first. @param one the notices of an alert; undefined for an alert that nothing is known of */
export function toldWords(one, alert, now) {
  if (!one) return [];
  const lines = notices(one.notices).map(
    ({ kind, createdAt, deliveries }) =>
      `${(KINDS[kind] ?? texts.toldOther)(moment(createdAt, now))} ${deliveries.map((each) => deliveryWords(each, now)).join('; ')}.`,
  );
  if (one.waiting) return [waitWords(one.waiting, alert, now), ...lines];
  if (lines.length === 0 && one.announcedAt) return [texts.toldBefore(moment(one.announcedAt, now))];
  return lines;
}

/** The deliveries of one notice together. */
function notices(all) {
  const together = new Map();
  for (const { kind, createdAt, delivery } of all) {
    const key = `${kind} ${createdAt}`;
    if (!together.has(key)) together.set(key, { kind, createdAt, deliveries: [] });
    together.get(key).deliveries.push(delivery);
  }
  return [...together.values()];
}

function waitWords({ reason, until }, alert, now) {
  const end = until ?? alert.shelvedUntil;
  const when = end ? moment(end, now) : '';
  const words = {
    acknowledged: texts.notToldAcknowledged,
    paused: texts.notToldPaused(when),
    quiet: texts.notToldQuiet(when),
    collecting: texts.notToldCollecting(when),
    grouped: texts.notToldGrouped(when),
  };
  return words[reason] ?? texts.notTold;
}

/** A caution when neither e-mail nor webhook is set up; empty otherwise. */
export const nobodyWords = (notifiers) =>
  notifiers.some(({ kind }) => kind !== 'page' && kind !== 'mqtt') ? '' : texts.onlyOpenPages;
