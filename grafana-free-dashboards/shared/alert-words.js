// Alerts in words, their order and their groups. Pure.

import { alertReasons, trendWords } from './alert-reasons.js';
import { conditionOf } from './conditions.js';
import { capital, known } from './text.js';
import * as t from './time-format.js';
import { texts } from './texts.js';

/** Kinds whose value is a count or minutes; their `detail` is shown in place of it. */
const WORDS_ONLY = new Set(['faulty', 'headingCold', 'headingHot']);

export const isShelved = (alert, now) => known(alert.shelvedUntil) && Date.parse(alert.shelvedUntil) > now;
/** Open: active, or returned but not acknowledged. */
export const isOpen = (alert) => alert.state === 'active' || !alert.acknowledged;

/** One alert as a sentence or two; the container's name stands elsewhere. */
export function alertDetail(alert, now) {
  const words = conditionOf(alert.kind);
  const began = Date.parse(alert.since ?? alert.raisedAt);
  const ended = alert.returnedAt ? Date.parse(alert.returnedAt) : now;
  const over = alert.state === 'returned';
  const lasting = t.duration(ended - began);
  const parts = [];
  if (WORDS_ONLY.has(alert.kind)) {
    parts.push(over ? texts.lasted(lasting) : texts.forWord(lasting));
    if (alert.trend) parts.push(trendWords(alert.trend));
    else {
      const signs = alertReasons(alert.reasons, alert.kind, now) || (alert.detail && texts.signsOfFault(alert.detail));
      if (signs) parts.push(signs);
    }
    if (!over && alert.forecastAt) parts.push(texts.outsideAtAbout(t.moment(alert.forecastAt, now)));
    return capital(`${parts.join(', ')}.`);
  }
  if (alert.kind === 'silent')
    parts.push(over ? texts.nothingWasHeardFor(lasting) : texts.nothingHeardForSoNobody(lasting));
  else if (known(alert.limit))
    parts.push(texts.forWord2(over ? texts.was : '', words.limitWord, words.unitOf(alert.limit), lasting));
  else parts.push(over ? texts.lasted(lasting) : texts.forWord(lasting));
  if (known(alert.worst) && alert.kind !== 'silent') parts.push(`${words.worstWord} ${words.unitOf(alert.worst)}`);
  if (known(alert.value) && alert.kind !== 'silent' && !over) parts.push(texts.now(words.unitOf(alert.value)));
  return capital(`${parts.join(', ')}.`);
}

export function alertStanding(alert, now) {
  if (isShelved(alert, now)) return texts.pausedUntilThenItIs(t.moment(alert.shelvedUntil, now));
  if (alert.state === 'returned') return texts.overSinceNobodyHasAcknowledged(t.moment(alert.returnedAt, now));
  if (alert.acknowledged)
    return texts.acknowledged(
      t.age(alert.acknowledgedAt, now),
      alert.acknowledgedBy ? texts.by(alert.acknowledgedBy) : '',
    );
  return '';
}

/** Order: not shelved, not acknowledged, active, by harm of the kind, oldest. */
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
 * Groups active alerts of one kind whose containers share a heat source, such as a failed mat. Every other alert is a
 * group of its own.
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
