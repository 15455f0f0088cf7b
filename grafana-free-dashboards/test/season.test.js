import assert from 'node:assert/strict';
import { afterEach, test } from 'node:test';
import { setTemperatureUnit } from '../shared/format.js';
import * as words from '../season/words.js';
import * as containerWords from '../season/container-rows.js';
import * as compared from '../season/comparison-words.js';
import { pictureOf } from '../season/pictures.js';

afterEach(() => setTemperatureUnit('C'));

const sowing = (more = {}) => ({
  sowing: 1,
  name: 'In the closet',
  species: 'lychee',
  speciesName: 'Lychee',
  lot: 1,
  sownAt: '2026-03-01T06:00:00Z',
  seeds: 40,
  germinated: 22,
  fraction: { value: 0.55, low: 0.398, high: 0.693 },
  culled: 5,
  culledFor: [{ reason: 'mould', seeds: 5 }],
  pottedOn: 4,
  alive: 3,
  remaining: 13,
  firstFoundDay: 4,
  lastCheckDay: 8,
  halfBetween: [4, 8],
  heat: { base: 15, ceiling: 36, degreeHours: 3029.1, lower: 3029.1, upper: 3029.1, coveredHours: 192, gapHours: 0 },
  containers: ['Closet'],
  ...more,
});
const outside = (more = {}) => ({
  excursions: 0,
  duringOpenings: 0,
  hours: 0,
  longestHours: 0,
  degreeHoursLost: 0,
  ...more,
});
const container = (more = {}) => ({
  id: 'closet',
  name: 'Closet',
  heatSource: null,
  seeds: true,
  base: 15,
  low: 29.5,
  high: 34,
  dryBelow: 80,
  coveredHours: 240,
  gapHours: 0,
  degreeHours: 3840,
  upper: 3840,
  degreeHoursPerDay: 384,
  fractionInTemperatureBand: 1,
  coldest: 31,
  hottest: 31,
  cold: outside(),
  hot: outside(),
  dryHours: 0,
  humidityCoveredHours: 240,
  lightCoveredHours: 240,
  leaks: { count: 0, doseLuxHours: 0, byKind: [] },
  openings: 0,
  ...more,
});
const report = (more = {}) => ({
  sowings: [],
  earlierSowings: 0,
  species: [],
  containers: [],
  heat: null,
  pairs: [],
  pairsLeftOut: 0,
  heatSources: null,
  earlier: [],
  lessons: [],
  ...more,
});
const cell = (rows, titles, title) => rows[0].cells[titles.indexOf(title)];

test('a season that ends at midnight ends with the day before', () => {
  assert.equal(
    words.spanWords({ from: '2026-03-01T00:00:00Z', to: '2026-06-01T00:00:00Z' }, 'UTC'),
    '1 Mar 2026 to 31 May 2026',
  );
});

test('a sowing in its row', () => {
  const rows = words.sowingRows(report({ sowings: [sowing()] }), 'UTC');
  assert.deepEqual(cell(rows, words.SOWING_TITLES, 'Germinated'), { main: '22 = 55 %', below: '40 to 69' });
  assert.deepEqual(cell(rows, words.SOWING_TITLES, 'Half by'), { main: 'day 4 to 8', below: '' });
  assert.deepEqual(cell(rows, words.SOWING_TITLES, 'Culled'), { main: '5', below: 'mould' });
  assert.deepEqual(cell(rows, words.SOWING_TITLES, 'Heat until the last check'), { main: '3029 °C·h', below: 'day 8' });
});

test('heat that the gaps leave open is told with its range, heat that nobody measured with no figure', () => {
  const heatOf = (heat, more) =>
    cell(
      words.sowingRows(report({ sowings: [sowing({ heat, ...more })] }), 'UTC'),
      words.SOWING_TITLES,
      'Heat until the last check',
    );
  assert.equal(heatOf({ degreeHours: 3000, lower: 3000, upper: 3500, coveredHours: 180 }).below, 'day 8; 3000 to 3500');
  assert.equal(heatOf({ degreeHours: 0, lower: 0, upper: 4032, coveredHours: 0 }).main, 'not measured');
  assert.equal(heatOf(null, { lastCheckDay: null }).main, 'not checked');
});

test('what was not measured is not said to have been in order', () => {
  const rows = containerWords.containerRows(
    report({
      containers: [
        container({
          coveredHours: 0,
          degreeHoursPerDay: null,
          fractionInTemperatureBand: null,
          coldest: null,
          hottest: null,
          humidityCoveredHours: 0,
          lightCoveredHours: 0,
        }),
      ],
    }),
  );
  for (const title of [
    'Heat a day',
    'Inside the limits',
    'Coldest, hottest',
    'Too cold',
    'Too hot',
    'Too dry',
    'Light leaks',
  ]) {
    assert.equal(cell(rows, containerWords.CONTAINER_TITLES, title).main, '–', title);
  }
  assert.equal(cell(rows, containerWords.CONTAINER_TITLES, 'Measured').main, 'not measured');
});

test('hours left out because of faults are told apart from hours not heard', () => {
  const measured = (hours) =>
    cell(
      containerWords.containerRows(report({ containers: [container(hours)] })),
      containerWords.CONTAINER_TITLES,
      'Measured',
    ).below;
  assert.equal(measured({ gapHours: 12, leftOutHours: 2 }), '10 h not heard; 2 h left out because of faults');
  assert.equal(measured({ gapHours: 2, leftOutHours: 2 }), '2 h left out because of faults');
  assert.equal(measured({ gapHours: 12, leftOutHours: undefined }), '12 h not heard');
});

test('excursions are counted apart from openings', () => {
  const cold = outside({ excursions: 2, duringOpenings: 3, hours: 12.5, longestHours: 10, degreeHoursLost: 24.29 });
  const rows = containerWords.containerRows(report({ containers: [container({ cold })] }));
  assert.deepEqual(cell(rows, containerWords.CONTAINER_TITLES, 'Too cold'), {
    main: '2 ×, 12 h 30 min',
    below: 'longest 10 h; 3 while open; 24.3 °C·h lost',
  });
  assert.equal(cell(rows, containerWords.CONTAINER_TITLES, 'Too hot').main, 'never');
});

test('a lesson follows the unit, temperatures with their offset and heat without', () => {
  const lesson =
    'Closet was below 29.5 °C for 5 % of the time. That cost 24.3 °C·h; it lay anywhere from 7680 °C·h to −1.0 °C.';
  assert.equal(words.lessonWords(lesson), lesson);
  setTemperatureUnit('F');
  assert.equal(
    words.lessonWords(lesson),
    'Closet was below 85.1 °F for 5 % of the time. That cost 43.7 °F·h; it lay anywhere from 13\u202f824 °F·h to 30.2 °F.',
  );
});

test('seasons before are told as far as they can be compared', () => {
  const earlier = [
    {
      season: 1,
      name: 'Spring',
      from: '2025-03-01T00:00:00Z',
      to: '2025-06-01T00:00:00Z',
      heat: { then: 360, now: 384 },
      species: [
        {
          species: 'lychee',
          name: 'Lychee',
          then: { germinated: 6, sown: 80 },
          now: { germinated: 12, sown: 20 },
          difference: { value: 0.525, low: 0.297, high: 0.711 },
        },
      ],
    },
    { season: 2, name: 'Autumn', from: '2024-09-01T00:00:00Z', to: '2024-12-01T00:00:00Z', heat: null, species: [] },
  ];
  const rows = compared.earlierRows(report({ earlier }), 'UTC');
  assert.equal(rows.length, 1);
  assert.deepEqual(cell(rows, compared.EARLIER_TITLES, 'Change, points'), { main: '+53', below: '+30 to +71' });
  const [spring, autumn] = compared.earlierHeat(report({ earlier }));
  assert.match(spring, /360 °C·h in Spring, 384 °C·h now/);
  assert.match(autumn, /Autumn cannot be compared/);
});

test('seeds that nobody looked at are not told as failures', () => {
  const species = {
    species: 'lychee',
    name: 'Lychee',
    sowings: 2,
    sown: 80,
    unchecked: 40,
    germinated: 6,
    fraction: { value: 0.15, low: 0.071, high: 0.291 },
  };
  const told = (more) => words.headlines(report({ sowings: [sowing()], species: [{ ...species, ...more }] }))[0];
  assert.equal(
    told({}),
    'Lychee: 6 of 40 seeds germinated, 15 % (95 %: 7 to 29 %), in 2 sowings; 40 more were not checked yet.',
  );
  assert.equal(
    told({ unchecked: 80, germinated: 0, fraction: null }),
    'Lychee: 80 seeds sown in 2 sowings, not checked yet.',
  );
  const rows = words.sowingRows(
    report({ sowings: [sowing({ fraction: null, germinated: 0, lastCheckDay: null, heat: null, halfBetween: null })] }),
    'UTC',
  );
  assert.equal(cell(rows, words.SOWING_TITLES, 'Germinated').main, 'not checked');
});

test('nothing sown is said', () => {
  assert.deepEqual(words.headlines(report({ earlierSowings: 1 })), [
    'Nothing was sown in this season.',
    '1 earlier sowing still had seeds in a container when the season began, and is not counted here.',
  ]);
});

const picture = (kind, more) => pictureOf({ kind }, report(more));
const bars = (kind, more) => picture(kind, more).bars.map(({ name, text }) => `${name}: ${text}`);

test('the picture of a lesson about containers has their shares, greatest first', () => {
  const containers = [
    container({ cold: outside({ hours: 12 }), dryHours: 0 }),
    container({ name: 'Mat', cold: outside({ hours: 120 }), gapHours: 80, dryHours: 24 }),
    container({ name: 'Tray', coveredHours: 0, gapHours: 240, humidityCoveredHours: 0, lightCoveredHours: 0 }),
  ];
  assert.deepEqual(bars('cold', { containers }), ['Mat: 50.0 %', 'Closet: 5.0 %']);
  assert.deepEqual(bars('dry', { containers }), ['Mat: 10.0 %', 'Closet: 0 %']);
  assert.deepEqual(bars('unheard', { containers }), ['Tray: 100 %', 'Mat: 25.0 %', 'Closet: 0 %']);
  assert.deepEqual(bars('blind', { containers }), ['Closet: 100 %', 'Mat: 75.0 %', 'Tray: 0 %']);
});

test('the picture of light leaks counts the days of that kind', () => {
  const byKind = [{ kind: 'lamp', count: 4, days: 3, doseLuxHours: 9 }];
  const containers = [container(), container({ name: 'Mat', leaks: { count: 4, doseLuxHours: 9, byKind } })];
  assert.deepEqual(bars('lamp', { containers }), ['Mat: 3 days', 'Closet: 0 days']);
  assert.deepEqual(bars('daylight', { containers }), ['Closet: 0 days', 'Mat: 0 days']);
});

test('the picture of a difference has its interval and a line at none', () => {
  const pair = { firstName: 'A', secondName: 'B', difference: { value: 0.35, low: 0.14, high: 0.52 } };
  const found = picture('sowings', { pairs: [pair] });
  assert.equal(found.zero, true);
  assert.deepEqual(found.bars, [{ name: 'A minus B', value: 0.35, low: 0.14, high: 0.52, text: '+35' }]);
});

test('the pictures of sowings, heat sources and earlier seasons', () => {
  assert.deepEqual(bars('culled', { sowings: [sowing()] }), ['In the closet: 12.5 %']);
  const sources = [
    { name: 'mat', degreeHoursPerDay: { value: 400, low: 390, high: 410 } },
    { name: 'none', degreeHoursPerDay: null },
  ];
  assert.deepEqual(bars('sources', { heatSources: { sources } }), ['mat: 400 °C·h']);
  const species = [{ name: 'Lychee', then: { germinated: 6, sown: 40 }, now: { germinated: 12, sown: 20 } }];
  assert.deepEqual(bars('earlier', { earlier: [{ name: 'Spring', species }] }), [
    'Lychee, Spring: 15 %',
    'Lychee, this season: 60 %',
  ]);
});

test('without figures, or for a kind that is not known, there is no picture', () => {
  assert.equal(picture('cold', {}), null);
  assert.equal(picture('of-a-later-version', { containers: [container()] }), null);
});
