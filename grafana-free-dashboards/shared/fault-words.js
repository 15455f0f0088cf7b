// Words for faults of sensors, and their marks on charts. Pure.

import * as f from './format.js';
import { QUANTITIES } from './quantities.js';
import * as t from './time-format.js';

const TITLES = {
  'power-on': 'Power-on value',
  'not-connected': 'Sensor chip not connected',
  'raw-limit': 'Error code',
  'out-of-range': 'Out of range',
  implausible: 'Impossible value',
  stuck: 'Stuck value',
  spike: 'Spike',
  jump: 'Jump',
  'saturated-humidity': 'Saturated humidity',
  'saturated-light': 'Saturated light',
  condensation: 'Condensation',
  drift: 'Two sensors drift apart',
  'wrong-clock': 'Wrong clock',
  'lengthening-interval': 'Longer interval',
  'falling-battery': 'Falling battery',
};

const STATES = {
  counted: 'counted',
  excluded: 'left out of figures',
  'partly-excluded': 'partly left out of figures',
};

export const titleOf = (kind) => TITLES[kind] ?? kind;

export const quantityOf = (key) =>
  QUANTITIES.find((one) => one.key === key)?.title ?? (key === 'battery' ? 'Battery' : 'All quantities');

/** What figures do with the readings of a fault. */
export function stateWords(fault) {
  if (fault.refused) return 'refused on arrival, left out of figures';
  return (fault.otherState ?? fault.state) === fault.state
    ? STATES[fault.state]
    : `${fault.sensor} ${STATES[fault.state]}, ${fault.otherSensor} ${STATES[fault.otherState]}`;
}

const isOut = (fault) => fault.state !== 'counted' || (fault.otherState ?? 'counted') !== 'counted';

/** The reason of a fault, with temperatures in the unit that the reader chose. */
export function reasonWords(fault) {
  if (f.temperatureUnit() === 'C') return fault.reason;
  const convert = fault.kind === 'drift' ? f.differenceToUnit : f.toUnit;
  return fault.reason.replace(/([−-]?)(\d+(?:\.\d+)?) °C/g, (_, sign, number) => {
    const celsius = Number(number) * (sign ? -1 : 1);
    return `${f.number(convert(celsius), 2).replace(/\.?0+$/, '')} ${f.unitName()}`;
  });
}

/** When it was: one moment, a stretch, or "since". */
export function whenWords(fault, now) {
  const from = t.stamp(fault.from, now);
  if (fault.ongoing && fault.from !== fault.to) return `since ${from}`;
  return fault.from === fault.to ? from : `${from} to ${t.stamp(fault.to, now)}`;
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
      return { sensor, excluded, title: `${excluded ? 'Exclude' : 'Include'}${of}` };
    })
    .filter(({ excluded }) => !excluded || !WITHOUT_FAULTY_READINGS.includes(fault.kind));
}

/** The verdict over a list of faults. */
export function summaryWords(faults) {
  if (faults.length === 0) return 'No sensor faults in this stretch.';
  const out = faults.filter(isOut).length;
  if (out === 0) return `${f.count(faults.length, 'fault')}, all counted in the figures.`;
  return `${f.count(faults.length, 'fault')}; ${out === faults.length ? (out === 1 ? 'it is' : 'all are') : f.number(out)} left out of the figures.`;
}

/** What figures left out, as a sentence; empty if nothing. */
export function leftOutWords(leftOut) {
  const parts = (leftOut ?? []).map(
    (one) =>
      `${one.hours > 0 ? `${t.hours(one.hours)} of ` : ''}${quantityOf(one.quantity).toLowerCase()} (${f.count(one.stretches, 'faulty stretch', 'faulty stretches')}: ${one.kinds.map((kind) => titleOf(kind).toLowerCase()).join(', ')})`,
  );
  return parts.length === 0 ? '' : `Left out because of faults: ${parts.join('; ')}.`;
}

const MIN_HOURS = 0.05;

/** For how long heat left readings out, as a phrase; empty below 3 min. */
export const leftOutOfHeat = (hours) => (hours > MIN_HOURS ? `${t.hours(hours)} left out because of faults` : '');

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
  return words.length === 0 ? '' : `Faults: ${words.join('; ')}.`;
}

/** The faults of a sensor in the last 7 days; empty if there are none. */
export const recentWords = (faults) =>
  faults?.count > 0
    ? `${f.count(faults.count, 'fault')} in 7 days, newest: ${titleOf(faults.newestKind).toLowerCase()}`
    : '';
