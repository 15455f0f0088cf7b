// Sentences of the Alerts page. Pure: what the service answers in, words out.

import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';
import { capital } from '../shared/text.js';
import { conditionOf } from '../shared/conditions.js';

const TRANSITIONS = {
  raised: 'Raised',
  returned: 'Back to normal',
  acknowledged: 'Acknowledged',
  shelved: 'Paused',
  unshelved: 'Pause ended',
  outOfService: 'Turned off',
  inService: 'Turned on again',
  foundLate: 'Found late, in readings that came afterwards; nobody was told',
};

/** Who did it and why. Transitions by the service itself name nobody. */
export function transitionWords({ what, by, note }) {
  const done = `${TRANSITIONS[what] ?? what}${by ? ` by ${by}` : ''}`;
  return note ? `${done}: ${note}` : done;
}

/** When it happened. Adds when it was recorded if that was more than a minute later. */
export function transitionTime({ at, recordedAt }, now) {
  const late = Date.parse(recordedAt) - Date.parse(at);
  return late > 60_000 ? `${t.stamp(at, now)}, noted ${t.stamp(recordedAt, now)}` : t.stamp(at, now);
}

export function historyLine(alert, now) {
  const since = Date.parse(alert.since ?? alert.raisedAt);
  const length = t.duration((alert.returnedAt ? Date.parse(alert.returnedAt) : now) - since);
  return alert.returnedAt
    ? `${t.stamp(since, now)}, for ${length}`
    : `since ${t.stamp(since, now)}, still going on (${length})`;
}

export const newestFirst = (alerts) =>
  [...alerts].sort((a, b) => Date.parse(b.raisedAt) - Date.parse(a.raisedAt) || b.id - a.id);

/** The total of a span in one sentence. */
export function rateWords({ raised, perDay, from, to }) {
  const span = t.duration(Date.parse(to) - Date.parse(from));
  if (raised === 0) return `No alert was raised in the last ${span}.`;
  return `${f.count(raised, 'alert')} in the last ${span}: ${f.number(perDay, 1)} a day.`;
}

/** One sentence for each problem with the alerts themselves; empty if there is none. */
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

/** Names a setting that would have prevented the alerts, from a replay of the stored readings. */
export function hintWords(hint, kind) {
  if (!hint) return '';
  const change = {
    deadband: () => `a deadband of ${deadbandWords(hint.deadband, kind)}`,
    onDelay: () => `an on-delay of ${t.duration(hint.onDelaySeconds * 1000)}`,
    offDelay: () => `an off-delay of ${t.duration(hint.offDelaySeconds * 1000)}`,
  }[hint.setting]?.();
  if (!change) return hint.text;
  return `With ${change} it would have been raised ${times(hint.raisedAfter)} instead of ${times(hint.raisedBefore)}.`;
}

const times = (n) => (n === 1 ? 'once' : `${f.number(n)} times`);

function deadbandWords(value, kind) {
  if (kind === 'cold' || kind === 'hot') return f.temperatureDifference(value, 2);
  return conditionOf(kind).unitOf(value);
}

/** Reads the typed minutes; `problem` says why they cannot be used. */
export function readMinutes(typed) {
  const minutes = Number(typed.trim().replace(',', '.'));
  if (typed.trim() === '' || !Number.isFinite(minutes) || minutes <= 0 || minutes > 7 * 24 * 60) {
    return { minutes: null, problem: 'For how long? Give minutes, more than 0 and at most 10080 (a week).' };
  }
  return { minutes, problem: null };
}
