// Words for faults of sensors, and their marks on charts. Pure.

import * as f from './format.js';
import { QUANTITIES } from './quantities.js';
import * as t from './time-format.js';
import { inSentence } from './text.js';
import { texts } from './texts.js';

const TITLES = {
  'power-on': texts.powerOnValue,
  'not-connected': texts.sensorChipNotConnected,
  'raw-limit': texts.errorCode,
  'out-of-range': texts.outOfRange,
  implausible: texts.impossibleValue,
  stuck: texts.stuckValue,
  spike: texts.spike,
  jump: texts.jump,
  'saturated-humidity': texts.saturatedHumidity,
  'saturated-light': texts.saturatedLight,
  condensation: texts.condensation,
  drift: texts.twoSensorsDriftApart,
  'wrong-clock': texts.wrongClock,
  'lengthening-interval': texts.longerInterval,
  'falling-battery': texts.fallingBattery,
};

const STATES = {
  counted: texts.counted,
  excluded: texts.leftOutOfFigures,
  'partly-excluded': texts.partlyLeftOutOfFigures,
};

export const titleOf = (kind) => TITLES[kind] ?? kind;

export const quantityOf = (key) =>
  QUANTITIES.find((one) => one.key === key)?.title ?? (key === 'battery' ? texts.battery2 : texts.allQuantities);

/** What figures do with the readings of a fault. */
export function stateWords(fault) {
  if (fault.refused) return texts.refusedOnArrivalLeftOut;
  return (fault.otherState ?? fault.state) === fault.state
    ? STATES[fault.state]
    : `${fault.sensor} ${STATES[fault.state]}, ${fault.otherSensor} ${STATES[fault.otherState]}`;
}

const isOut = (fault) => fault.state !== 'counted' || (fault.otherState ?? 'counted') !== 'counted';

/** When it was: one moment, a stretch, or "since". */
export function whenWords(fault, now) {
  const from = t.stamp(fault.from, now);
  if (fault.ongoing && fault.from !== fault.to) return texts.since(from);
  return fault.from === fault.to ? from : texts.to(from, t.stamp(fault.to, now));
}

const WITHOUT_FAULTY_READINGS = ['lengthening-interval', 'falling-battery'];

/** Which decisions can be made: one for each sensor of the fault; none where nothing can be left out. */
export function nextDecisions(fault) {
  if (fault.refused) return [];
  const sensors = fault.otherSensor
    ? [
        { sensor: fault.sensor, state: fault.state, of: ` ${fault.sensor}` },
        { sensor: fault.otherSensor, state: fault.otherState, of: ` ${fault.otherSensor}` },
      ]
    : [{ sensor: fault.sensor, state: fault.state, of: '' }];
  return sensors
    .map(({ sensor, state, of }) => {
      const excluded = state !== 'excluded';
      return { sensor, excluded, title: `${excluded ? texts.exclude : texts.include}${of}` };
    })
    .filter(({ excluded }) => !excluded || !WITHOUT_FAULTY_READINGS.includes(fault.kind));
}

/** The verdict over a list of faults. */
export function summaryWords(faults) {
  if (faults.length === 0) return texts.noSensorFaultsInThis;
  const out = faults.filter(isOut).length;
  if (out === 0) return texts.allCountedInTheFigures(f.count(faults.length, texts.faultCount));
  return texts.leftOutOfTheFigures(
    f.count(faults.length, texts.faultCount),
    out === faults.length ? (out === 1 ? texts.itIs : texts.allAre) : f.number(out),
  );
}

/** What figures left out, as a sentence; empty if nothing. */
export function leftOutWords(leftOut) {
  const parts = (leftOut ?? []).map(
    (one) =>
      `${one.hours > 0 ? texts.ofWord(t.hours(one.hours)) : ''}${inSentence(quantityOf(one.quantity))} (${f.count(one.stretches, texts.faultyStretchCount)}: ${one.kinds.map((kind) => inSentence(titleOf(kind))).join(', ')})`,
  );
  return parts.length === 0 ? '' : texts.leftOutBecauseOfFaults(parts.join('; '));
}

const MIN_HOURS = 0.05;

/** For how long heat left readings out, as a phrase; empty below 3 min. */
export const leftOutOfHeat = (hours) => (hours > MIN_HOURS ? texts.leftOutBecauseOfFaults2(t.hours(hours)) : '');

/** Faults as marks on charts; those of one quantity carry its key. */
export const marksOfFaults = (faults) =>
  (faults ?? []).map((fault) => ({
    kind: isOut(fault) ? 'excluded' : 'fault',
    quantity: fault.quantity,
    from: Date.parse(fault.from),
    to: Date.parse(fault.to),
    words: `${titleOf(fault.kind)} (${stateWords(fault)})`,
  }));

/** The faults marked on one chart, in words; empty if none. */
export function chartWords(marks) {
  const words = [...new Set(marks.map((mark) => mark.words).filter(Boolean))];
  return words.length === 0 ? '' : texts.faults(words.join('; '));
}

/** The faults of a sensor in the last 7 days; empty if there are none. */
export const recentWords = (faults) =>
  faults?.count > 0
    ? texts.in7DaysNewest(f.count(faults.count, texts.faultCount), inSentence(titleOf(faults.newestKind)))
    : '';
