// What the list of sensors says about each, and which it shows in which order. Pure.

import { recentWords } from '../shared/fault-words.js';
import * as f from '../shared/format.js';
import { latestWords } from '../shared/latest-words.js';
import { nameOf, placeOf, placeWords } from '../shared/sensor-place.js';
import { moment } from '../shared/time-format.js';
import { locale } from '../shared/language.js';
import { texts } from './texts.js';

/** One sensor as the list needs it. @param containers a map of containers by id */
export function rowOf(sensor, containers, at) {
  const place = placeOf(sensor, at);
  const activity = sensor.activity;
  const where = sensor.retired ? texts.retiredSince(moment(sensor.retired, at)) : placeWords(place, containers);
  const name = nameOf(sensor);
  return {
    key: sensor.sensor,
    name,
    where,
    placed: place !== null,
    retired: Boolean(sensor.retired),
    late: activity?.late ?? false,
    low: !sensor.retired && (activity?.battery?.low ?? false),
    faulty: !sensor.retired && sensor.faults?.ongoing > 0,
    latest: valueWords(sensor),
    lastHeard: sensor.lastHeard,
    reporting: [intervalWords(activity), lateWords(activity), gapWords(activity?.gaps.week), recentWords(sensor.faults)]
      .filter(Boolean)
      .join(' · '),
    battery: batteryWords(sensor),
    device: deviceWords(sensor.device),
    found: [name, sensor.sensor, where, sensor.note, sensor.device?.firmware].join(' ').toLowerCase(),
    order: {
      late: activity?.lateSeconds ?? -1,
      battery: activity?.battery?.daysLeft ?? activity?.battery?.daysLeast ?? Infinity,
      gaps: activity?.gaps.week.hours ?? -1,
      signal: sensor.device?.rssi ?? 1,
      heard: sensor.lastHeard ? Date.parse(sensor.lastHeard) : Infinity,
    },
  };
}

/** The newest values without the battery, which has words of its own. */
export const valueWords = (sensor) => latestWords({ ...sensor, latest: { ...sensor.latest, battery: null } });

/** Which sensors to show. */
export const SHOWN = [
  { key: 'all', title: texts.all, test: () => true },
  { key: 'placed', title: texts.placed, test: (row) => row.placed && !row.retired },
  { key: 'unplaced', title: texts.withoutAPlace, test: (row) => !row.placed && !row.retired },
  { key: 'late', title: texts.late, test: (row) => row.late },
  { key: 'low', title: texts.lowBattery, test: (row) => row.low },
  { key: 'faulty', title: texts.faulty, test: (row) => row.faulty },
  { key: 'retired', title: texts.retired2, test: (row) => row.retired },
];

const collator = new Intl.Collator(locale, { numeric: true });
const byName = (a, b) => collator.compare(a.name, b.name);

/** Orders; equal ones by name. */
export const SORTS = [
  { key: 'name', title: texts.name, compare: byName },
  { key: 'place', title: texts.place, compare: (a, b) => collator.compare(a.where, b.where) },
  { key: 'heard', title: texts.lastReadingOldestFirst, compare: (a, b) => a.order.heard - b.order.heard },
  { key: 'late', title: texts.lateness, compare: (a, b) => b.order.late - a.order.late },
  { key: 'battery', title: texts.daysLeft, compare: (a, b) => compareEnds(a.order.battery, b.order.battery) },
  { key: 'gaps', title: texts.gaps2, compare: (a, b) => b.order.gaps - a.order.gaps },
  { key: 'signal', title: texts.weakestSignal, compare: (a, b) => a.order.signal - b.order.signal },
];

/** Infinity − Infinity is no number. */
const compareEnds = (a, b) => (a === b ? 0 : a - b);

const choiceOf = (choices, key) => choices.find((choice) => choice.key === key) ?? choices[0];

/** The rows that fit the search, chosen and in order. Each word of the search must be in the row. */
export function chosenRows(rows, { q = '', show, sort }) {
  const words = q.toLowerCase().split(/\s+/).filter(Boolean);
  const { test } = choiceOf(SHOWN, show);
  const { compare } = choiceOf(SORTS, sort);
  return rows
    .filter((row) => test(row) && words.every((word) => row.found.includes(word)))
    .sort((a, b) => compare(a, b) || byName(a, b));
}

/** What needs a look first. */
export function verdictWords(rows) {
  if (rows.length === 0) return texts.noSensorHasBeenHeard;
  const used = rows.filter((row) => !row.retired);
  const count = (key) => used.filter(choiceOf(SHOWN, key).test).length;
  const needs = [
    [count('late'), texts.late2],
    [count('low'), texts.withALowBattery],
    [count('faulty'), texts.withAFaultNow],
    [count('unplaced'), texts.withoutAPlace2],
  ].filter(([number]) => number > 0);
  const all = texts.inUse(f.count(used.length, texts.sensorCount));
  return `${all}: ${needs.length === 0 ? texts.allReportAndNoBattery : `${needs.map(([number, what]) => `${f.number(number)} ${what}`).join(', ')}.`}`;
}

/** A length in one unit, for intervals. */
export function interval(seconds) {
  if (seconds < 119.5) return `${plain(seconds)} s`;
  const minutes = seconds / 60;
  if (minutes < 119.5) return texts.min(plain(minutes));
  return minutes < 48 * 60 ? `${plain(minutes / 60)} h` : texts.days(plain(minutes / 1440));
}

const plain = (value) => f.number(value, Math.abs(value - Math.round(value)) < 0.05 || value >= 20 ? 0 : 1);

export const intervalWords = (activity) =>
  activity?.usualIntervalSeconds ? texts.every(interval(activity.usualIntervalSeconds)) : '';

export const lateWords = (activity) =>
  !activity?.late ? '' : activity.lateSeconds ? texts.lateBy(interval(activity.lateSeconds)) : texts.late2;

export function gapWords(gaps, length = texts.n7Days) {
  if (!gaps) return '';
  if (gaps.count === 0) return texts.noGapsIn(length);
  const total = interval(gaps.hours * 3600);
  const sum = gaps.count === 1 ? texts.ofWord : texts.together;
  return texts.inWord(f.count(gaps.count, texts.gapCount), length, sum, total);
}

export function batteryWords(sensor) {
  const battery = sensor.activity?.battery;
  const volts = sensor.latest?.battery?.value;
  if (!battery) return volts === undefined ? '' : f.volts(volts);
  return [f.volts(volts ?? battery.volts), daysWords(battery)].filter(Boolean).join(', ');
}

const days = (value) => (value < 10 ? f.number(value, 1) : f.number(value));

/** Days left with their bounds; empty if nothing can be said in a few words. */
export function daysWords({ volts, emptyVolts, daysLeft, daysLeast, daysMost, reason }) {
  if (emptyVolts !== null && volts <= emptyVolts) return texts.empty;
  if (daysLeft !== null) {
    const bounds = daysMost === null ? texts.orMore(days(daysLeast)) : texts.to(days(daysLeast), days(daysMost));
    return texts.aboutDaysLeft(days(daysLeft), bounds);
  }
  if (reason === 'flat') return daysLeast === null ? texts.noFallYet : texts.atLeastDaysLeft(days(daysLeast));
  return reason === 'rising' ? texts.rising2 : '';
}

export const deviceWords = (device) =>
  [device?.rssi && texts.dbm(f.number(device.rssi)), device?.firmware && texts.firmware(device.firmware)]
    .filter(Boolean)
    .join(' · ');
