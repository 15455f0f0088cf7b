// What the heat bench shows, in words and rows. Pure: answers of the service in, texts out.

import { leftOutWords } from '../shared/fault-words.js';
import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';
import { pairSentence } from '../shared/bench-words.js';
import { conditionOf } from '../shared/conditions.js';
import { inSentence } from '../shared/text.js';
import { texts } from './texts.js';

export const known = (value) => value !== null && value !== undefined && Number.isFinite(value);

export const degrees = (celsius) => `${f.number(f.toUnit(celsius), 1)} ${f.unitName()}`;
export const difference = (celsius) => `${f.number(f.differenceToUnit(celsius), 1)} ${f.unitName()}`;
export const heat = (value) => `${f.number(f.differenceToUnit(value), 1)} ${f.unitName()}·h`;
export const points = (fraction) => `${f.number(fraction * 100, 1)} %`;
const minutes = (value) => texts.min(f.number(value));

/** The measures, in the order of the table: how one is said, and how a difference of two is. */
export const MEASURES = [
  { key: 'degreeHoursPerDay', title: texts.heatADay, say: heat, sayDifference: heat },
  {
    key: 'fractionInside',
    title: texts.insideTheBand,
    say: points,
    sayDifference: (v) => texts.points(f.number(v * 100, 1)),
  },
  { key: 'meanTemperature', title: texts.mean, say: degrees, sayDifference: difference },
  { key: 'nightFloor', title: texts.nightFloor, say: degrees, sayDifference: difference },
  { key: 'dailySwing', title: texts.swingInADay, say: difference, sayDifference: difference },
];

/** Without its unit, which the figure above has already. */
const bare = (text) => text.replace(/ [^0-9 ]+$/, '');

/** A figure and, on a line of its own, its interval; or that there is none. */
export function figure(interval, say) {
  if (!interval || !known(interval.value)) return { main: f.UNKNOWN, interval: '' };
  if (!known(interval.low) || !known(interval.high))
    return { main: say(interval.value), interval: texts.tooFewForAnInterval };
  const [low, high] = [bare(say(interval.low)), bare(say(interval.high))];
  return { main: say(interval.value), interval: low === high ? texts.about(low) : texts.to(low, high) };
}

/** One row for each that was compared. */
export function comparedRows(answer) {
  return answer.compared.map((one) => ({
    key: one.key,
    name: answer.by === 'sources' ? `${one.name} (${f.count(one.containers.length, texts.containerCount)})` : one.name,
    cells: [
      { main: f.number(one.coveredHours), interval: '' },
      ...MEASURES.map((measure) => figure(one.measures[measure.key], measure.say)),
      {
        main: one.coveredHours > 0 ? excursion(one.longestExcursion) : f.UNKNOWN,
        interval: one.longestExcursion ? inSentence(conditionOf(one.longestExcursion.kind).title) : '',
      },
      one.coveredHours > 0 ? recovery(one.recovery) : { main: f.UNKNOWN, interval: '' },
      { main: known(one.variation) ? difference(one.variation) : f.UNKNOWN, interval: '' },
      figure(one.spread, difference),
    ],
  }));
}

export const COMPARED_TITLES = [
  texts.hours,
  ...MEASURES.map((measure) => measure.title),
  texts.longestOut,
  texts.warmAgain,
  texts.variesBy,
  texts.spreadOfPlaces,
];

const excursion = (longest) => (longest ? t.hours(longest.hours) : texts.none);

function recovery({ openings, seen, minutes: mean }) {
  if (openings === 0) return { main: f.UNKNOWN, interval: texts.noOpeningCooledIt };
  const text = figure(mean, minutes);
  const unseen = openings > seen ? texts.notSeenToEnd(openings - seen) : '';
  return {
    main: text.main,
    interval: `${text.interval ? `${text.interval}, ` : ''}${f.count(openings, texts.openingCount)}${unseen}`,
  };
}

/** One row for each pair. */
export function pairRows(answer) {
  const names = new Map(answer.compared.map((one) => [one.key, one.name]));
  return answer.pairs.map((pair) => ({
    key: `${pair.first} ${pair.second}`,
    name: texts.less(names.get(pair.first), names.get(pair.second)),
    cells: [
      { main: f.number(pair.pairedHours), interval: '' },
      ...MEASURES.map((measure) => figure(pair.differences[measure.key], measure.sayDifference)),
      figure(pair.recoveryMinutes, minutes),
      { main: pair.pairedHours > 0 ? `±${heat(pair.sensorError)}` : f.UNKNOWN, interval: '' },
    ],
    words: pairSentence(answer, pair),
    finding: pair.finding,
  }));
}

export const PAIR_TITLES = [
  texts.hoursOfBoth,
  ...MEASURES.map((measure) => measure.title),
  texts.warmAgain,
  texts.sensorsMayMake,
];

/** Names the containers that were left out; empty if none was. */
export function leftOut(answer, nameOf) {
  const out = answer.compared.flatMap((one) => one.leftOut);
  return out.length === 0 ? '' : texts.leftOutSinceTooFew(out.map(nameOf).join(', '));
}

/** What each side left out because of sensor faults; empty if nothing. */
export const faultSentences = (answer) =>
  answer.compared
    .map((one) => ({ name: one.name, words: leftOutWords(one.faultsLeftOut) }))
    .filter(({ words }) => words !== '')
    .map(({ name, words }) => `${name}: ${words}`);

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
