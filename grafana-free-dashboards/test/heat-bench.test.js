import assert from 'node:assert/strict';
import { afterEach, test } from 'node:test';
import { api } from '../shared/api.js';
import { setTemperatureUnit } from '../shared/format.js';
import { permutationNote, trialSentence } from '../heat-bench/sentences.js';
import { comparisonSentence, pairSentence } from '../shared/bench-words.js';
import {
  COMPARED_TITLES,
  PAIR_TITLES,
  comparedRows,
  figure,
  leftOut,
  pairRows,
  profileColumns,
  sourcesOf,
} from '../heat-bench/words.js';
import { placesOf } from '../shared/bars.js';
import { trialRows, wattsOf } from '../heat-bench/trial-words.js';

const realFetch = globalThis.fetch;
afterEach(() => {
  globalThis.fetch = realFetch;
  setTemperatureUnit('C');
});

const interval = (value, low = null, high = null) => ({ value, low, high });
const measures = (heat) => ({
  degreeHoursPerDay: heat,
  fractionInside: interval(0.975, 0.95, 1),
  meanTemperature: interval(31, 30.9, 31.1),
  nightFloor: interval(30.2),
  dailySwing: null,
});
const compared = (key, more = {}) => ({
  key,
  name: key.toUpperCase(),
  containers: [key],
  leftOut: [],
  coveredHours: 670,
  measures: measures(interval(384, 380, 388)),
  spread: null,
  variation: 0.84,
  recovery: { openings: 0, seen: 0, minutes: null },
  longestExcursion: null,
  profile: Array(24).fill(31),
  ...more,
});
const answer = (more = {}) => ({
  by: 'containers',
  compared: [
    compared('a'),
    compared('b', {
      recovery: { openings: 4, seen: 3, minutes: interval(18, 12, 24) },
      longestExcursion: { kind: 'cold', hours: 4.5 },
    }),
  ],
  pairs: [
    {
      first: 'a',
      second: 'b',
      pairedHours: 660,
      differences: measures(interval(-12.34, -15, -9.7)),
      recoveryMinutes: null,
      sensorError: 4.8,
      finding: 'less',
      words: 'Less.',
    },
  ],
  ...more,
});

test('a figure comes with its interval, or says why not', () => {
  const say = (value) => `${value} u`;
  assert.deepEqual(figure(interval(1, 0, 2), say), { main: '1 u', interval: '0 to 2' });
  const tenths = (value) => `${value.toFixed(1)} u`;
  assert.deepEqual(figure(interval(16.5, 16.48, 16.52), tenths), { main: '16.5 u', interval: 'about 16.5' });
  assert.deepEqual(figure(interval(1), say), { main: '1 u', interval: 'too few for an interval' });
  assert.deepEqual(figure(null, say), { main: '–', interval: '' });
});

test('rows have a cell for each title', () => {
  for (const row of comparedRows(answer())) assert.equal(row.cells.length, COMPARED_TITLES.length);
  for (const row of pairRows(answer())) assert.equal(row.cells.length, PAIR_TITLES.length);
});

test('a row says heat, excursion and recovery', () => {
  const [a, b] = comparedRows(answer());
  assert.deepEqual(a.cells[1], { main: '384.0 °C·h', interval: '380.0 to 388.0' });
  assert.deepEqual(a.cells[6], { main: 'none', interval: '' });
  assert.deepEqual(a.cells[7], { main: '–', interval: 'no opening cooled it' });
  assert.deepEqual(a.cells[8], { main: '0.8 °C', interval: '' });
  assert.deepEqual(b.cells[6], { main: '4 h 30 min', interval: 'too cold' });
  assert.deepEqual(b.cells[7], { main: '18 min', interval: '12 to 24, 4 openings; 1 not seen to end' });
});

test('a difference has no offset in Fahrenheit, a temperature has', () => {
  setTemperatureUnit('F');
  const [pair] = pairRows(answer());
  assert.equal(pair.name, 'A minus B');
  assert.equal(pair.cells[1].main, '−22.2 °F·h');
  assert.equal(pair.cells[3].main, '55.8 °F');
  assert.equal(comparedRows(answer())[0].cells[3].main, '87.8 °F');
});

test('the bars share one axis with room at both ends', () => {
  const places = [
    { value: 100, low: 90, high: 110 },
    { value: 190, low: null, high: null },
  ];
  const [a, b] = placesOf(places).places;
  assert.equal(a.low, 0.1);
  assert.ok(Math.abs(b.value - 0.9) < 1e-9);
  assert.deepEqual([b.low, b.high], [null, null]);
  assert.deepEqual(placesOf([null]).places, [null]);
  assert.ok(placesOf(places, [0]).at(0) < placesOf(places, [0]).places[0].low);
});

test('who was left out is named', () => {
  assert.equal(
    leftOut(answer(), (id) => id),
    '',
  );
  const one = answer({ compared: [compared('mat', { leftOut: ['x', 'y'] })] });
  assert.match(
    leftOut(one, (id) => id.toUpperCase()),
    /: X, Y\.$/,
  );
});

test('the profile: a gap stays a gap', () => {
  const profile = Array(24).fill(30);
  profile[3] = null;
  const columns = profileColumns({ compared: [compared('a', { profile })] }, 0);
  assert.equal(columns[0].length, 24);
  assert.equal(columns[0][1] - columns[0][0], 3600_000);
  assert.equal(columns[1][3], null);
  assert.equal(columns[1][4], 30);
});

test('heat sources are counted', () => {
  assert.deepEqual(
    sourcesOf([{ heatSource: 'mat' }, { heatSource: null }, { heatSource: 'closet' }, { heatSource: 'mat' }]),
    [
      { name: 'closet', count: 1 },
      { name: 'mat', count: 2 },
    ],
  );
});

test('a trial that tells, and one that does not', () => {
  const base = {
    coveredHours: 47.9,
    meanTemperature: 31.5,
    roomMin: 15.4,
    roomMax: 20.6,
    timeConstantHours: null,
    rise: null,
    cycles: null,
    low: null,
    energy: null,
  };
  assert.equal(trialRows(base).length, 3);
  const told = {
    ...base,
    timeConstantHours: interval(6, 5.5, 6.6),
    rise: interval(13.5, 13.4, 13.6),
    energy: { kilowattHoursPerDay: 0.96, low: 0, high: 0.96, atMost: true },
    low: {
      limit: 29.5,
      roomBelow: interval(16, 15.9, 16.1),
      colderBy: 2,
      hoursToFall: interval(4.1, 3.8, 4.5),
      hoursWithoutHeat: null,
    },
  };
  const rows = new Map(trialRows(told));
  assert.equal(rows.get('Time constant'), '6.0 h (5.5 to 6.6)');
  assert.equal(rows.get('Falls below 29.5 °C in a room below'), '16.0 °C (15.9 to 16.1)');
  assert.equal(rows.get('Energy a day'), 'at most 0.96 kWh: on all day');
});

test('watts: a comma is a decimal point, nothing is nothing, words are refused', () => {
  assert.equal(wattsOf(' 12,5 '), 12.5);
  assert.equal(wattsOf(''), null);
  assert.equal(wattsOf('much'), undefined);
  assert.equal(wattsOf('-3'), undefined);
});

test('names are asked for one by one, so that one may hold a comma', async () => {
  let asked = '';
  globalThis.fetch = async (url) => {
    asked = url;
    return Response.json({});
  };
  await api.compareHeat({ sources: ['lamp, on', 'mat'], from: 0 });
  assert.equal(asked, '/api/compare/heat?from=1970-01-01T00%3A00%3A00.000Z&sources=lamp%2C+on&sources=mat');
});

const pairOf = (more) => {
  const told = answer();
  Object.assign(told.pairs[0], more);
  return [told, told.pairs[0]];
};

test('verdicts in either unit', () => {
  assert.equal(comparisonSentence(answer()), 'B gave 12.3 °C·h a day more than A.');
  setTemperatureUnit('F');
  assert.equal(comparisonSentence(answer()), 'B gave 22.2 °F·h a day more than A.');
  assert.match(
    pairSentence(...pairOf({ finding: 'within-sensor-error' })),
    /may be wrong by that much \(±8\.6 °F·h a day\)\. Swap the sensor of A with that of B, and/,
  );
  assert.match(
    pairSentence(...pairOf({ finding: 'none-shown', differences: measures(interval(0.1, -1, 1)) })),
    /between A and B: likely from −1\.8 to 1\.8 °F·h a day\. .* up to 8\.6 °F·h a day\.$/,
  );
});

test('a verdict says what chance explains and where a container is missing', () => {
  assert.match(
    pairSentence(...pairOf({ permutationP: null, leastPermutationP: 0.5 })),
    /With 1 and 1 containers it can be due to the containers and not to the heat source: add a container to each\.$/,
  );
  const [told, pair] = pairOf({ permutationP: 0.2, leastPermutationP: 0.1 });
  for (const side of told.compared) side.containers = ['x', 'y', 'z'];
  assert.match(
    pairSentence(told, pair),
    /With 3 and 3 containers that can still be chance: add a container to each\.$/,
  );
  assert.equal(
    permutationNote(told, pair),
    'A and B: the container is the unit. With 3 against 3, the smallest possible permutation p is 0.100; here it is 0.200.',
  );
  told.compared[0].containers = ['x', 'y', 'z', 'w'];
  assert.match(pairSentence(told, pair), /add a container to B\.$/);
  pair.permutationP = 0.03;
  assert.match(pairSentence(told, pair), /With 4 and 3 containers, chance alone does that in 3\.0 of 100 cases\.$/);
  pair.finding = 'only-these-containers';
  assert.match(pairSentence(told, pair), /these containers and not to the heat source: add a container to B\.$/);
  assert.equal(
    pairSentence(...pairOf({ differences: measures(interval(3)), finding: 'cannot-tell' })),
    'Too few hours to compare A and B: 660 were measured in both, and at least 4 days are needed.',
  );
  const findings = (...all) => comparisonSentence(answer({ pairs: all.map((finding) => ({ finding })) }));
  assert.match(findings('none-shown', 'cannot-tell'), /^None of 2 pairs differ clearly/);
  assert.match(findings('less', 'none-shown'), /^1 of 2 pairs differs clearly/);
  assert.match(findings('less', 'more'), /^All of 2 pairs differ clearly/);
});

test('a trial in Fahrenheit', () => {
  setTemperatureUnit('F');
  const low = {
    limit: 29.5,
    roomBelow: interval(16, 15, 17),
    colderBy: 2,
    hoursToFall: interval(4.1, 3.8, 4.5),
    hoursWithoutHeat: null,
  };
  assert.equal(
    trialSentence({ outcome: 'told', low, sensorError: 0.5 }),
    'This place falls below 85.1 °F when the room stays below 60.8 °F (95 %: 59.0 to 62.6; the sensors may add ±0.9). In a room another 3.6 °F colder, this takes 4.1 hours (3.8 to 4.5).',
  );
  assert.match(trialSentence({ outcome: 'room-too-steady', roomMin: 20, roomMax: 21 }), /between 68\.0 and 69\.8 °F/);
  const swung = { roomMin: 15, roomMax: 24, insideMin: 30, insideMax: 30.5 };
  assert.match(
    trialSentence({ outcome: 'hardly-follows', ...swung }),
    /from 59\.0 to 75\.2 °F, .* 86\.0 to 86\.9 °F\. Either/,
  );
  assert.match(trialSentence({ outcome: 'unclear', ...swung }), /changed enough \(59\.0 to 75\.2 °F\)/);
  assert.match(trialSentence({ outcome: 'no-fit' }), /do not fit a heated place/);
  assert.match(trialSentence({ outcome: 'too-short', coveredHours: 3.25 }), /together for 3\.3 hours/);
});
