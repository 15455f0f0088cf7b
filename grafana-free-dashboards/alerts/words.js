// Sentences of the Alerts page. Pure: what the service answers in, words out.

import { alertReasons } from '../shared/alert-reasons.js';
import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';
import { capital } from '../shared/text.js';
import { conditionOf } from '../shared/conditions.js';
import { texts } from './texts.js';

const TRANSITIONS = {
  raised: texts.raised,
  returned: texts.backToNormal,
  acknowledged: texts.acknowledged,
  shelved: texts.paused2,
  unshelved: texts.pauseEnded,
  outOfService: texts.turnedOff,
  inService: texts.turnedOnAgain,
  foundLate: texts.foundLateInReadingsThat,
};

/** Who did it and why. Transitions by the service itself name nobody. @param kind of the alert */
export function transitionWords({ what, by, note, reasons }, kind, now) {
  const done = `${TRANSITIONS[what] ?? what}${by ? texts.by(by) : ''}`;
  const why = alertReasons(reasons, kind, now) || note;
  return why ? `${done}: ${why}` : done;
}

/** When it happened. Adds when it was recorded if that was more than a minute later. */
export function transitionTime({ at, recordedAt }, now) {
  const late = Date.parse(recordedAt) - Date.parse(at);
  return late > 60_000 ? texts.noted(t.stamp(at, now), t.stamp(recordedAt, now)) : t.stamp(at, now);
}

export function historyLine(alert, now) {
  const since = Date.parse(alert.since ?? alert.raisedAt);
  const length = t.duration((alert.returnedAt ? Date.parse(alert.returnedAt) : now) - since);
  return alert.returnedAt
    ? texts.forWord(t.stamp(since, now), length)
    : texts.sinceStillGoingOn(t.stamp(since, now), length);
}

export const newestFirst = (alerts) =>
  [...alerts].sort((a, b) => Date.parse(b.raisedAt) - Date.parse(a.raisedAt) || b.id - a.id);

/** The total of a span in one sentence. */
export function rateWords({ raised, perDay, from, to }) {
  const span = t.duration(Date.parse(to) - Date.parse(from));
  if (raised === 0) return texts.noAlertWasRaisedIn(span);
  return texts.inTheLastADay(f.count(raised, texts.alertCount), span, f.number(perDay, 1));
}

/** One sentence for each problem with the alerts themselves; empty if there is none. */
export function troubleWords({ mostInTenMinutes, floods, stale }) {
  const said = [];
  if (floods.length > 0)
    said.push(texts.upToAlertsWithinTen(f.count(floods.length, texts.floodCount), f.number(mostInTenMinutes)));
  if (stale > 0)
    said.push(texts.staleGoingOnForMore(f.count(stale, texts.alertCount), stale === 1 ? texts.it : texts.them));
  return said;
}

export function groupMarks({ chattering, repeating, stale }) {
  const marks = [];
  if (chattering) marks.push(texts.chatteringItCameBackAgain);
  else if (repeating) marks.push(texts.repeating);
  if (stale > 0) marks.push(texts.stale(f.number(stale)));
  return capital(marks.join('; '));
}

/** Names a setting that would have prevented the alerts, from a replay of the stored readings. */
export function hintWords(hint, kind) {
  if (!hint) return '';
  const change = {
    deadband: () => texts.aDeadbandOf(deadbandWords(hint.deadband, kind)),
    onDelay: () => texts.anOnDelayOf(t.duration(hint.onDelaySeconds * 1000)),
    offDelay: () => texts.anOffDelayOf(t.duration(hint.offDelaySeconds * 1000)),
  }[hint.setting]();
  return texts.withItWouldHaveBeen(change, times(hint.raisedAfter), times(hint.raisedBefore));
}

const times = (n) => (n === 1 ? texts.once : texts.times(f.number(n)));

function deadbandWords(value, kind) {
  if (kind === 'cold' || kind === 'hot') return f.temperatureDifference(value, 2);
  return conditionOf(kind).unitOf(value);
}

/** Reads the typed minutes; `problem` says why they cannot be used. */
export function readMinutes(typed) {
  const minutes = Number(typed.trim().replace(',', '.'));
  if (typed.trim() === '' || !Number.isFinite(minutes) || minutes <= 0 || minutes > 7 * 24 * 60) {
    return { minutes: null, problem: texts.forHowLongGiveMinutes };
  }
  return { minutes, problem: null };
}
