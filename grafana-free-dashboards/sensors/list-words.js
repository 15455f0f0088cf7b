// What the list of sensors says about each, and which it shows in which order. Pure.

import { recentWords } from '../shared/fault-words.js';
import * as f from '../shared/format.js';
import { latestWords } from '../shared/latest-words.js';
import { nameOf, placeOf, placeWords } from '../shared/sensor-place.js';
import { moment } from '../shared/time-format.js';

/** One sensor as the list needs it. @param containers a map of containers by id */
export function rowOf(sensor, containers, at) {
  const place = placeOf(sensor, at);
  const activity = sensor.activity;
  const where = sensor.retired ? `retired since ${moment(sensor.retired, at)}` : placeWords(place, containers);
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
  { key: 'all', title: 'All', test: () => true },
  { key: 'placed', title: 'Placed', test: (row) => row.placed && !row.retired },
  { key: 'unplaced', title: 'Without a place', test: (row) => !row.placed && !row.retired },
  { key: 'late', title: 'Late', test: (row) => row.late },
  { key: 'low', title: 'Low battery', test: (row) => row.low },
  { key: 'faulty', title: 'Faulty', test: (row) => row.faulty },
  { key: 'retired', title: 'Retired', test: (row) => row.retired },
];

const collator = new Intl.Collator('en', { numeric: true });
const byName = (a, b) => collator.compare(a.name, b.name);

/** Orders; equal ones by name. */
export const SORTS = [
  { key: 'name', title: 'Name', compare: byName },
  { key: 'place', title: 'Place', compare: (a, b) => collator.compare(a.where, b.where) },
  { key: 'heard', title: 'Last reading, oldest first', compare: (a, b) => a.order.heard - b.order.heard },
  { key: 'late', title: 'Lateness', compare: (a, b) => b.order.late - a.order.late },
  { key: 'battery', title: 'Days left', compare: (a, b) => compareEnds(a.order.battery, b.order.battery) },
  { key: 'gaps', title: 'Gaps', compare: (a, b) => b.order.gaps - a.order.gaps },
  { key: 'signal', title: 'Weakest signal', compare: (a, b) => a.order.signal - b.order.signal },
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
  if (rows.length === 0) return 'No sensor has been heard yet.';
  const used = rows.filter((row) => !row.retired);
  const count = (key) => used.filter(choiceOf(SHOWN, key).test).length;
  const needs = [
    [count('late'), 'late'],
    [count('low'), 'with a low battery'],
    [count('faulty'), 'with a fault now'],
    [count('unplaced'), 'without a place'],
  ].filter(([number]) => number > 0);
  const all = `${f.count(used.length, 'sensor')} in use`;
  return `${all}: ${needs.length === 0 ? 'all report, and no battery is low.' : `${needs.map(([number, what]) => `${f.number(number)} ${what}`).join(', ')}.`}`;
}

/** A length in one unit, for intervals. */
export function interval(seconds) {
  if (seconds < 119.5) return `${plain(seconds)} s`;
  const minutes = seconds / 60;
  if (minutes < 119.5) return `${plain(minutes)} min`;
  return minutes < 48 * 60 ? `${plain(minutes / 60)} h` : `${plain(minutes / 1440)} days`;
}

const plain = (value) => f.number(value, Math.abs(value - Math.round(value)) < 0.05 || value >= 20 ? 0 : 1);

export const intervalWords = (activity) =>
  activity?.usualIntervalSeconds ? `every ${interval(activity.usualIntervalSeconds)}` : '';

export const lateWords = (activity) => {
  if (!activity?.late) return '';
  return activity.lateSeconds ? `late by ${interval(activity.lateSeconds)}` : 'late';
};

export function gapWords(gaps, length = '7 days') {
  if (!gaps) return '';
  if (gaps.count === 0) return `no gaps in ${length}`;
  const total = interval(gaps.hours * 3600);
  return `${f.count(gaps.count, 'gap')} in ${length}, ${gaps.count === 1 ? 'of' : 'together'} ${total}`;
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
  if (emptyVolts !== null && volts <= emptyVolts) return 'empty';
  if (daysLeft !== null) {
    const bounds = daysMost === null ? `${days(daysLeast)} or more` : `${days(daysLeast)} to ${days(daysMost)}`;
    return `about ${days(daysLeft)} days left (${bounds})`;
  }
  if (reason === 'flat') return daysLeast === null ? 'no fall yet' : `at least ${days(daysLeast)} days left`;
  return reason === 'rising' ? 'rising' : '';
}

export const deviceWords = (device) =>
  [device?.rssi && `${f.number(device.rssi)} dBm`, device?.firmware && `firmware ${device.firmware}`]
    .filter(Boolean)
    .join(' · ');
