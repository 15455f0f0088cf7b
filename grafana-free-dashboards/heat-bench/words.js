// What the heat bench shows, in words and rows. Pure: answers of the service in, texts out.

import * as f from '../shared/format.js';
import { pairSentence } from './sentences.js';

const known = (value) => value !== null && value !== undefined && Number.isFinite(value);

const degrees = (celsius) => `${f.number(f.toUnit(celsius), 1)} ${f.unitName()}`;
const difference = (celsius) => `${f.number(f.differenceToUnit(celsius), 1)} ${f.unitName()}`;
const heat = (value) => `${f.number(f.differenceToUnit(value), 1)} ${f.unitName()}·h`;
const points = (fraction) => `${f.number(fraction * 100, 1)} %`;
const minutes = (value) => `${f.number(value)} min`;

/** The measures, in the order of the table: how one is said, and how a difference of two is. */
export const MEASURES = [
  { key: 'degreeHoursPerDay', title: 'Heat a day', say: heat, sayDifference: heat },
  {
    key: 'fractionInside',
    title: 'Inside the band',
    say: points,
    sayDifference: (v) => `${f.number(v * 100, 1)} points`,
  },
  { key: 'meanTemperature', title: 'Mean', say: degrees, sayDifference: difference },
  { key: 'nightFloor', title: 'Night floor', say: degrees, sayDifference: difference },
  { key: 'dailySwing', title: 'Swing in a day', say: difference, sayDifference: difference },
];

/** Without its unit, which the figure above has already. */
const bare = (text) => text.replace(/ [^0-9 ]+$/, '');

/** A figure and, on a line of its own, its interval; or that there is none. */
export function figure(interval, say) {
  if (!interval || !known(interval.value)) return { main: f.UNKNOWN, interval: '' };
  const told = known(interval.low) && known(interval.high);
  return {
    main: say(interval.value),
    interval: told ? `${bare(say(interval.low))} to ${bare(say(interval.high))}` : 'too few for an interval',
  };
}

/** One row for each that was compared. */
export function comparedRows(answer) {
  return answer.compared.map((one) => ({
    key: one.key,
    name: answer.by === 'sources' ? `${one.name} (${f.count(one.containers.length, 'container')})` : one.name,
    cells: [
      { main: f.number(one.coveredHours), interval: '' },
      ...MEASURES.map((measure) => figure(one.measures[measure.key], measure.say)),
      { main: excursion(one.longestExcursion), interval: one.longestExcursion ? one.longestExcursion.kind : '' },
      recovery(one.recovery),
      { main: known(one.variation) ? difference(one.variation) : f.UNKNOWN, interval: '' },
      figure(one.spread, difference),
    ],
  }));
}

export const COMPARED_TITLES = [
  'Hours',
  ...MEASURES.map((measure) => measure.title),
  'Longest out',
  'Warm again',
  'Varies by',
  'Spread of places',
];

const excursion = (longest) => (longest ? f.hours(longest.hours) : 'none');

function recovery({ openings, seen, minutes: mean }) {
  if (openings === 0) return { main: f.UNKNOWN, interval: 'no opening cooled it' };
  const told = figure(mean, minutes);
  const unseen = openings > seen ? `; ${openings - seen} not seen to end` : '';
  return {
    main: told.main,
    interval: `${told.interval ? `${told.interval}, ` : ''}${f.count(openings, 'opening')}${unseen}`,
  };
}

/** One row for each pair. */
export function pairRows(answer) {
  const names = new Map(answer.compared.map((one) => [one.key, one.name]));
  return answer.pairs.map((pair) => ({
    key: `${pair.first} ${pair.second}`,
    name: `${names.get(pair.first)} less ${names.get(pair.second)}`,
    cells: [
      { main: f.number(pair.pairedHours), interval: '' },
      ...MEASURES.map((measure) => figure(pair.differences[measure.key], measure.sayDifference)),
      figure(pair.recoveryMinutes, minutes),
      { main: `±${heat(pair.sensorError)}`, interval: '' },
    ],
    words: pairSentence(answer, pair),
    finding: pair.finding,
  }));
}

export const PAIR_TITLES = [
  'Hours of both',
  ...MEASURES.map((measure) => measure.title),
  'Warm again',
  'Sensors may make',
];

/** Who was left out, in a sentence; empty when nobody was. */
export function leftOut(answer, nameOf) {
  const out = answer.compared.flatMap((one) => one.leftOut);
  return out.length === 0 ? '' : `Left out, since too few of their hours were measured: ${out.map(nameOf).join(', ')}.`;
}

/** Columns of the profile chart: times within one day of no date, then one column for each compared. */
export function profileColumns(answer, startMs) {
  const hours = [...Array(24).keys()];
  return [
    hours.map((hour) => startMs + (hour + 0.5) * 3600_000),
    ...answer.compared.map((one) => one.profile.map((celsius) => (known(celsius) ? f.toUnit(celsius) : null))),
  ];
}

/** What can be compared: each heat source with how many containers it warms, by name. */
export function sourcesOf(containers) {
  const counts = new Map();
  for (const { heatSource } of containers) {
    if (heatSource) counts.set(heatSource, (counts.get(heatSource) ?? 0) + 1);
  }
  return [...counts].map(([name, count]) => ({ name, count })).sort((a, b) => a.name.localeCompare(b.name));
}

/** The figures of a trial as rows of name and value. */
export function trialRows(trial) {
  const rows = [
    ['Measured together', f.hours(trial.coveredHours)],
    ['Mean inside', f.temperature(trial.meanTemperature)],
    ['Room', known(trial.roomMin) ? `${degrees(trial.roomMin)} to ${degrees(trial.roomMax)}` : f.UNKNOWN],
  ];
  const add = (title, interval, say) => {
    if (!interval) return;
    const told = figure(interval, say);
    rows.push([title, told.interval ? `${told.main} (${told.interval})` : told.main]);
  };
  const hoursOf = (value) => `${f.number(value, 1)} h`;
  add('Time constant', trial.timeConstantHours, hoursOf);
  add(trial.cycles ? 'Rise above the room, heater always on' : 'Rise above the room', trial.rise, difference);
  if (trial.low) {
    const limit = degrees(trial.low.limit);
    add(`Falls below ${limit} in a room below`, trial.low.roomBelow, degrees);
    add(`after, in a room ${difference(trial.low.colderBy)} colder still`, trial.low.hoursToFall, hoursOf);
    add('after, if the heat fails', trial.low.hoursWithoutHeat, hoursOf);
  }
  if (trial.cycles) {
    rows.push([
      'Heater switches on and off at',
      `${degrees(trial.cycles.onBelow)} and ${degrees(trial.cycles.offAbove)}`,
    ]);
    add('Heater is on', trial.cycles.duty, points);
  }
  if (trial.energy) rows.push(['Energy a day', energy(trial.energy)]);
  return rows;
}

function energy({ kilowattHoursPerDay, low, high, atMost }) {
  const kwh = (value) => `${f.number(value, 2)} kWh`;
  return atMost
    ? `at most ${kwh(kilowattHoursPerDay)}: on all day`
    : `${kwh(kilowattHoursPerDay)} (${kwh(low)} to ${kwh(high)})`;
}

/** The watts that were typed: null for none, undefined for what is no number. */
export function wattsOf(text) {
  const typed = text.trim().replace(',', '.');
  if (typed === '') return null;
  const watts = Number(typed);
  return Number.isFinite(watts) && watts >= 0 ? watts : undefined;
}
