// What charts show: marks, sentences, tables, files.

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { cell, csvOf, rowsOf } from '../chart-parts/figures.js';
import { loadCharts } from '../chart-parts/load.js';
import { aroundMark, isOn, markedOf } from '../chart-parts/marked.js';
import { oneTimeLine } from '../chart-parts/samples.js';
import { extremesOf, meanOf, momentWords, nearest, sentence } from '../chart-parts/sentence.js';
import { specsOfOne, specsOfSeveral } from '../chart-parts/specs.js';
import { MOST_LINES } from '../chart-parts/colours.js';
import { matches } from '../charts/match.js';

const HOUR = 3600_000;
const NOON = Date.parse('2026-03-02T12:00:00Z');
const ms = (hour) => NOON + hour * HOUR;
const at = (hour) => new Date(ms(hour)).toISOString();
const band = { temperature: { low: 29.5, high: 34 }, humidity: { low: 80 }, light: { high: 1 } };
const one = specsOfOne(() => band);

test('marks: an end that was not seen lasts to the edge, a plan to be open does not pass it', () => {
  const marks = markedOf(
    {
      light: {
        events: [
          { kind: 'daylight', start: at(1), end: null, peakLux: 40 },
          { kind: 'opening', start: at(5), end: at(6), peakLux: 900 },
        ],
      },
      openings: [{ from: at(8), until: at(60) }],
      band: {
        excursions: [
          { kind: 'cold', start: at(0), end: at(2), worst: 24.5 },
          { kind: 'light', start: at(1), end: at(2), worst: 40 },
        ],
      },
    },
    ms(10),
  );
  assert.deepEqual(
    marks.map(({ kind, from, to }) => ({ kind, from, to })),
    [
      { kind: 'cold', from: ms(0), to: ms(2) },
      { kind: 'daylight', from: ms(1), to: ms(10) },
      { kind: 'opening', from: ms(5), to: ms(6) },
      { kind: 'opening', from: ms(8), to: ms(10) },
    ],
  );
  assert.equal(marks[0].text, 'Too cold: 2 h, at worst 24.5 °C');
  assert.equal(marks[1].text, 'Daylight: end not seen, up to 40 lux');
});

test('marks: what people did is an instant with its words', () => {
  const nothing = { sensor: null, quantity: null, sowing: null, sowingName: null, group: null, germinated: null };
  const events = [
    { ...nothing, kind: 'placed', at: at(0), sensor: 'in-1' },
    { ...nothing, kind: 'calibrated', at: at(1), sensor: 'in-1', quantity: 'humidity' },
    { ...nothing, kind: 'checked', at: at(2), sowing: 3, group: '3-1', germinated: 4 },
    { ...nothing, kind: 'removed', at: at(3), sensor: 'in-1' },
  ];
  const marks = markedOf({ events: { events } }, ms(10));
  assert.deepEqual(
    marks.map((mark) => mark.text),
    [
      'Sensor in-1 placed here',
      'Sensor in-1 calibrated: humidity',
      'Check of sowing 3, group 3-1: 4 newly germinated',
      'Sensor in-1 taken out',
    ],
  );
  assert.ok(marks.every((mark) => mark.from === mark.to));
  assert.ok(marks.every((mark) => isOn('light', mark)));
  assert.ok(isOn('heat', marks[2]) && !isOn('heat', marks[0]));
});

test('an entry of the list leads to its moment, with time on both sides', () => {
  assert.deepEqual(aroundMark({ from: ms(4), to: ms(4) }), { from: ms(1), to: ms(7) });
  assert.deepEqual(aroundMark({ from: ms(0), to: ms(10) }), { from: ms(-10), to: ms(20) });
});

test('the mean counts time, not samples, and no gap', () => {
  const warm = [
    [0, 1, 3, 4, 5],
    [10, 20, null, 40, 40],
  ];
  // 15 for 1 h, 40 for 1 h.
  assert.equal(meanOf(warm), 27.5);
  assert.equal(
    meanOf([
      [0, 1],
      [4, null],
    ]),
    4,
  );
  assert.equal(meanOf([[], []]), null);
});

test('the extremes of a line with their times, gaps counted once each', () => {
  assert.deepEqual(
    extremesOf([
      [0, 1, 2, 3, 4],
      [1, null, null, 2, null],
      [0, null, null, 1, null],
      [2, null, null, 3, null],
    ]),
    { low: 0, lowAt: 0, high: 3, highAt: 3, gaps: 2 },
  );
  assert.equal(extremesOf([[], [], [], []]), null);
});

const more = (value, by) => (value === null ? null : value + by);
const set = (name, ...values) => ({
  name,
  columns: [values.map((value, i) => ms(i)), values, values.map((v) => more(v, -1)), values.map((v) => more(v, 1))],
});

test('the sentence of one container', () => {
  assert.match(
    sentence([set('Jar 1', 30, 32, null, 31)], one.temperature),
    /^On average 31\.0 °C; lowest 29\.0 °C \(.+\), highest 33\.0 °C \(.+\)\. 1 gap without readings\.$/,
  );
  assert.equal(sentence([set('Jar 1')], one.temperature), '');
  const heat = {
    name: 'Jar 1',
    columns: [
      [0, 1],
      [100, 150],
      [100, 150],
      [100, 160],
    ],
  };
  assert.equal(
    sentence([heat], one.heat, true),
    '50.0 °C·h were added in this stretch; 150 °C·h so far, at most 160 °C·h with the gaps.',
  );
  assert.equal(
    sentence([heat], one.heat, false),
    '50.0 °C·h were added in this stretch; 150 °C·h by its end, at most 160 °C·h with the gaps.',
  );
});

test('the sentence of several names the highest and the lowest', () => {
  const spec = specsOfSeveral(3).temperature;
  const [warm, cool, silent] = [set('Mat', 33, 33), set('Lamp', 30, 31), set('Box', null, null)];
  assert.equal(
    sentence([cool, warm, silent], spec),
    'On average, Mat is highest with 33.0 °C and Lamp lowest with 30.5 °C. 1 without readings.',
  );
  assert.equal(sentence([warm, silent], spec), 'Only Mat has readings: 33.0 °C on average. 1 without readings.');
  assert.equal(sentence([warm, warm], spec), 'On average all alike: 33.0 °C.');
});

test('the values at a moment are those of the nearest sample; in a gap nothing was heard', () => {
  assert.equal(nearest([0, 10, 20], 14), 1);
  assert.equal(nearest([0, 10, 20], 16), 2);
  assert.equal(nearest([], 5), -1);
  const sets = [set('Mat', 33, null, 35), set('Lamp', 30, 31, 32)];
  const spec = specsOfSeveral(2).temperature;
  assert.match(momentWords(sets, spec, ms(1)), /: Mat nothing heard; Lamp 31\.0 °C \(30\.0 °C to 32\.0 °C\)$/);
});

test('a moment without a measurement near it has no value', () => {
  const words = (hour, ...values) => momentWords([set('Jar 1', ...values)], one.temperature, ms(hour)).split(': ')[1];
  const silentSinceMonday = [30, 30, 30, 30];
  assert.match(words(3.9, ...silentSinceMonday), /^30\.0 °C/);
  assert.equal(words(76, ...silentSinceMonday), 'nothing heard');
  assert.equal(words(-2, ...silentSinceMonday), 'nothing heard');

  const withGap = { name: 'Jar 1', columns: [0, 1, 2, 60, 61].map(ms) };
  const columns = [[30, 30, null, 31, 31]].flatMap((mean) => [mean, mean, mean]);
  withGap.columns = [withGap.columns, ...columns];
  const inGap = (hour, spec) => momentWords([withGap], spec, ms(hour)).split(': ')[1];
  assert.equal(inGap(50, one.temperature), 'nothing heard');
  assert.match(inGap(59.5, one.temperature), /^31\.0 °C/);
  assert.match(inGap(50, one.heat), /^31\.0 °C·h/);

  // The line goes on between two samples without a gap, however far apart.
  const seldom = { name: 'Jar 1', columns: [[0, 1, 2, 9].map(ms), ...Array(3).fill([30, 30, 30, 31])] };
  assert.match(momentWords([seldom], one.temperature, ms(5)), /: 30\.0 °C$/);
});

test('several lines on one time line: a gap stays a gap, no sample is none', () => {
  const sets = [
    {
      columns: [
        [0, 2, 6],
        [1, null, 3],
      ],
    },
    {
      columns: [
        [1, 3, 4, 6],
        [5, 6, 7, 8],
      ],
    },
  ];
  assert.deepEqual(oneTimeLine(sets), [
    [0, 1, 2, 3, 4, 6],
    [1, undefined, null, null, null, 3],
    [undefined, 5, undefined, 6, 7, 8],
  ]);
});

test('lines of many containers share their times at whole steps, but no sample moves past another', () => {
  const [times, first, other] = oneTimeLine(
    [
      {
        columns: [
          [9, 21, 30, 32, 41],
          [1, 2, 3, null, 4],
        ],
      },
      {
        columns: [
          [11, 18, 29],
          [5, 6, 7],
        ],
      },
    ],
    10,
  );
  assert.deepEqual(times, [10, 20, 30, 32, 40]);
  assert.deepEqual(first, [1, 2, 3, null, 4]);
  assert.deepEqual(other, [5, 6, 7, undefined, undefined]);
});

test('the table has at most 48 rows and no sample twice', () => {
  const many = set('Jar 1', ...Array.from({ length: 100 }, (_, i) => i));
  const rows = rowsOf([many], { from: ms(0), to: ms(99) });
  assert.equal(rows.length, 48);
  assert.deepEqual(rows[0].values, [{ mean: 1, last: 2, min: -1, max: 3 }]);
  assert.equal(rows.at(-1).values[0].last, 99);
  assert.deepEqual(rowsOf([set('Box', null)], { from: ms(0), to: ms(1) }), []);
});

test('CSV: one row for each sample, UTC, a gap without values, no formula', () => {
  const csv = csvOf([set('=Jar, "1"', 30.123456, null)], { quantity: 'temperature', unit: '°C' });
  assert.equal(
    csv,
    'time,container,quantity,unit,mean,lowest,highest\r\n' +
      '2026-03-02T12:00:00.000Z,"\'=Jar, ""1""",temperature,°C,30.1235,29.1235,31.1235\r\n' +
      '2026-03-02T13:00:00.000Z,"\'=Jar, ""1""",temperature,°C,,,\r\n',
  );
  assert.equal(cell('-4.5'), '-4.5');
  assert.equal(cell('-A1'), "'-A1");
});

test('each of the most lines has a colour of its own', () => {
  const colours = specsOfSeveral(MOST_LINES).temperature.series.map((line) => line.color);
  assert.equal(new Set(colours).size, MOST_LINES);
});

test('containers are found by name, room or heat source', () => {
  const jar = { name: 'Jar 1', room: 'Cellar', heatSource: null };
  assert.ok(matches(jar, ' cell ') && matches(jar, 'JAR') && matches(jar, ''));
  assert.ok(!matches(jar, 'mat'));
});

test('charts of ten containers take two calls, and their answers keep the order', async () => {
  const asked = [];
  const ask = async (query) => {
    asked.push(query);
    return query.containers.split(',').map((container) => ({ container }));
  };
  const ids = Array.from({ length: 10 }, (_, i) => `jar-${i}`);
  const answers = await loadCharts(ids, { from: 1, to: 2 }, 600, ask);
  assert.deepEqual(
    answers.map((answer) => answer.container),
    ids,
  );
  assert.equal(asked.length, 2);
  assert.deepEqual(asked[1], { from: 1, to: 2, points: 200, containers: 'jar-5,jar-6,jar-7,jar-8,jar-9' });
  assert.deepEqual(await loadCharts([], { from: 1, to: 2 }, 600, ask), []);
  assert.equal(asked.length, 2);
});
