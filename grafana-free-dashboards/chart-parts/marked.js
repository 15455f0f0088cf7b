// What is marked in charts: excursions, light, openings, faults, and what people did. Each as a stretch or an instant,
// with a sentence. Pure.

import { now } from '../shared/clock.js';
import { conditionOf } from '../shared/conditions.js';
import { marksOfFaults, quantityOf } from '../shared/fault-words.js';
import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';
import { inSentence } from '../shared/text.js';
import { texts } from './texts.js';

const LEAKS = ['daylight', 'lamp', 'other'];
const INSTANTS = ['checked', 'placed', 'removed', 'calibrated'];
const LIGHT_TITLES = { opening: texts.opening, daylight: texts.daylight, lamp: texts.lamp, other: texts.otherLight };
/** The kinds that each chart shows; a chart that is not named here shows openings and what people did. */
const SHOWN_ON = {
  temperature: ['cold', 'hot', 'opening', ...LEAKS, ...INSTANTS],
  humidity: ['dry', 'opening', ...INSTANTS],
  light: [...LEAKS, 'opening', ...INSTANTS],
  heat: ['cold', 'hot', 'checked'],
};

/**
 * All marks of one container, in order of time: {kind, from, to, text}.
 * @param answers of the service: light, band, openings, events, faults; each may be missing
 * @param edge end of the chart, for what has not ended
 */
export function markedOf({ light, band, openings, events, faults }, edge) {
  const end = (at) => (at ? Date.parse(at) : edge);
  const lasting = (from, to) => (to ? t.duration(Date.parse(to) - Date.parse(from)) : texts.endNotSeen);
  const marks = [];
  for (const one of light?.events ?? [])
    marks.push({
      kind: one.kind,
      from: Date.parse(one.start),
      to: end(one.end),
      text: texts.lightMark(LIGHT_TITLES[one.kind] ?? one.kind, lasting(one.start, one.end), f.lux(one.peakLux)),
    });
  for (const one of openings ?? [])
    marks.push({
      kind: 'opening',
      from: Date.parse(one.from),
      to: Math.min(edge, end(one.until)),
      text: texts.noted(texts.opening, lasting(one.from, one.until)),
    });
  for (const one of band?.excursions ?? []) {
    if (one.kind === 'light') continue;
    const { title, unitOf } = conditionOf(one.kind);
    const text = texts.outside(title, lasting(one.start, one.end), unitOf(one.worst));
    marks.push({ kind: one.kind, from: Date.parse(one.start), to: end(one.end), text });
  }
  for (const one of events?.events ?? [])
    marks.push({ kind: one.kind, from: Date.parse(one.at), to: Date.parse(one.at), text: eventText(one) });
  for (const one of marksOfFaults(faults?.faults)) marks.push({ ...one, text: one.words });
  return marks.sort((a, b) => a.from - b.from);
}

function eventText({ kind, sensor, quantity, sowing, sowingName, group, germinated }) {
  if (kind === 'placed') return texts.sensorPlaced(sensor);
  if (kind === 'removed') return texts.sensorRemoved(sensor);
  if (kind === 'calibrated') return texts.sensorCalibrated(sensor, inSentence(quantityOf(quantity)));
  return texts.checked(sowingName ?? texts.sowingNumber(sowing), group, f.number(germinated));
}

/** A fault is marked on the chart of its quantity; the heat chart shows what was left out of the temperature. */
export function isOn(name, { kind, quantity, words }) {
  if (!words) return (SHOWN_ON[name] ?? ['opening', ...INSTANTS]).includes(kind);
  if (name === 'heat') return kind === 'excluded' && (quantity === 'temperature' || quantity === null);
  return quantity === name || quantity === null;
}

/** When a mark was, as words. The day of its end only if it is another. */
export function markTime({ from, to }) {
  if (to <= from) return t.stamp(from, now());
  const end = t.dayKey(from) === t.dayKey(to) ? t.clockTime(to) : t.stamp(to, now());
  return texts.untilTime(t.stamp(from, now()), end);
}

/** The stretch of time around a mark that shows it in the middle: three times its length, 6 h at least. */
export function aroundMark({ from, to }, leastMs = 6 * 3_600_000) {
  const length = Math.max(leastMs, (to - from) * 3);
  const middle = (from + to) / 2;
  return { from: middle - length / 2, to: middle + length / 2 };
}
