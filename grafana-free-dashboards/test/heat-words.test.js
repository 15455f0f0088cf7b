import assert from 'node:assert/strict';
import { afterEach, test } from 'node:test';
import { api } from '../shared/api.js';
import { setTemperatureUnit } from '../shared/format.js';
import * as w from '../tally/heat-words.js';
import * as coming from '../tally/forecast-words.js';

const realFetch = globalThis.fetch;
afterEach(() => {
  globalThis.fetch = realFetch;
  setTemperatureUnit('C');
});

const fit = (more = {}) => ({
  identified: true,
  reason: null,
  medianHeat: 3904,
  medianInterval: [3512, 4378],
  heatForTenth: 2810,
  sigma: 0.25,
  finalFraction: 0.42,
  finalFractionInterval: [0.3, 0.55],
  ...more,
});
const course = (more) => ({ base: 15, ceiling: null, fit: fit(more) });

test('the heat of half of them, with its interval, in either unit', () => {
  assert.equal(
    w.fitWords(course(), 6000).headline,
    'Half of those that germinated needed 3900 °C·h above 15 °C (95 %: 3510 to 4380).',
  );
  setTemperatureUnit('F');
  assert.equal(
    w.fitWords(course(), 6000).headline,
    'Half of those that germinated needed 7030 °F·h above 59 °F (95 %: 6320 to 7880).',
  );
});

test('open ends, and a median that nobody has seen', () => {
  assert.equal(w.fitWords(course(), 6000).lines.at(-1), 'In the end 42 % germinate (95 %: 30 to 55 %).');
  assert.equal(
    w.fitWords(course({ finalFraction: 1, finalFractionInterval: null }), 6000).lines.at(-1),
    'Assumption: every seed germinates in the end.',
  );
  assert.match(w.fitWords(course({ medianInterval: [3500, null] }), 6000).headline, /3500 or more, with no upper end/);
  const beyond = w.fitWords(course(), 3000);
  assert.match(beyond.headline, /^Half of those that ever germinate would need/);
  assert.match(beyond.lines[0], /extrapolation: the seeds have received 3000 °C·h/);
});

test('not identified: the reason and no number', () => {
  const told = w.fitWords(
    { base: 15, ceiling: null, fit: { identified: false, reason: 'fewer than two checks found any' } },
    900,
  );
  assert.deepEqual(told.lines, ['Fewer than two checks found any.']);
  assert.doesNotMatch(told.headline, /\d/);
});

test('the heat of a sowing tells how much was left out, from the group with the most', () => {
  const row = (from, to) => ({ from: { leftOutHours: from }, to: to === null ? null : { leftOutHours: to } });
  assert.equal(w.leftOutOfCourse({ rows: [] }), '');
  assert.equal(w.leftOutOfCourse({ rows: [row(0, 0), row(0, null)] }), '');
  assert.equal(
    w.leftOutOfCourse({ rows: [row(0, 1), row(2.5, null)] }),
    'Readings of up to 2 h 30 min left out because of faults.',
  );
});

const NOW = Date.parse('2026-11-26T09:00:00Z');
const forecast = (more = {}) => ({
  group: '1-1',
  seeds: 3,
  remaining: 26,
  at: '2026-11-29T10:00:00Z',
  earliest: '2026-11-27T10:00:00Z',
  latest: '2026-12-05T10:00:00Z',
  heatPerDay: { low: 380, likely: 384, high: 388 },
  ...more,
});

test('the next and the best day to look', () => {
  const told = coming.forecastWords(
    forecast(),
    { at: '2026-12-02T09:00:00Z', why: 'a week after the last check' },
    NOW,
    'UTC',
  );
  assert.equal(
    told.line,
    'If it stays as warm as in the last days (380 to 388 °C·h a day), the next 3 of 26 come around Sunday 29 November (27 Nov to 5 Dec).',
  );
  assert.equal(told.best, 'Best day for the next check: Sunday 29 November.');
});

test('a check that is due anyway comes first; one that is expected by now is for today', () => {
  assert.equal(
    coming.forecastWords(forecast(), { at: '2026-11-28T09:00:00Z', why: 'a week after the last check' }, NOW, 'UTC')
      .best,
    'Best day for the next check: Saturday 28 November, a week after the last check.',
  );
  assert.equal(
    coming.forecastWords(forecast(), { at: '2026-11-25T09:00:00Z', why: '4 germinated, to be potted on' }, NOW, 'UTC')
      .best,
    'Best day for the next check: today, 4 germinated, to be potted on.',
  );
  const late = coming.forecastWords(
    forecast({ at: '2026-11-25T10:00:00Z', earliest: '2026-11-24T10:00:00Z', latest: null }),
    null,
    NOW,
    'UTC',
  );
  assert.match(late.line, /should have come by now \(not before 24 Nov, perhaps never\)/);
  assert.equal(late.best, 'Best day for the next check: today.');
});

const species = (more = {}) => ({
  species: 'lychee',
  sowings: [1, 2],
  seeds: 240,
  germinated: 41,
  base: 15,
  ceiling: null,
  heatModel: { medianHeat: 3900, medianInterval: [3500, 4400], aic: 120.3 },
  clockModel: { medianDays: 17.4, aic: 131 },
  verdict: 'heat',
  verdictWords: '…',
  baseByLikelihood: { identified: true, base: 12.5, interval: [10, null], reason: null, medianHeat: 4500, profile: [] },
  baseByRegression: {
    identified: false,
    base: null,
    interval: null,
    reason: 'all groups were about as warm',
    points: [],
  },
  ...more,
});

test('heat or days: the verdict and what it rests on', () => {
  const { headline, rows } = w.thermalTimeWords(species());
  assert.equal(headline, 'The counts follow the heat above 15 °C better than the days.');
  assert.equal(
    w.thermalTimeWords(species({ verdict: 'clock' })).headline,
    'The counts follow the days better than the heat above 15 °C.',
  );
  const told = new Map(rows);
  assert.equal(told.get('By heat'), 'half by 3900 °C·h above 15 °C (95 %: 3500 to 4400)');
  assert.equal(told.get('Fit (AIC, lower is better)'), 'heat 120.3, days 131.0');
  assert.equal(told.get('Base temperature by likelihood'), '12.5 °C (95 %: 10.0 or more, with no upper end)');
  assert.equal(
    told.get('Base temperature by regression'),
    'cannot be estimated from these data: all groups were about as warm',
  );
  const flat = {
    identified: false,
    base: null,
    interval: [null, null],
    reason: 'every base temperature fits',
    profile: [],
  };
  assert.equal(
    new Map(w.thermalTimeWords(species({ baseByLikelihood: flat })).rows).get('Base temperature by likelihood'),
    'cannot be estimated from these data: every base temperature fits',
  );
  assert.match(
    w.thermalTimeWords(
      species({
        verdict: 'cannotBeTold',
        verdictWords: 'it cannot be estimated: one group',
        heatModel: null,
        clockModel: null,
      }),
    ).headline,
    /^It cannot be estimated: one group\.$/,
  );
});

test('no heat: the readings are away, or the service does not know the question', async () => {
  const failing = (status) => {
    globalThis.fetch = async () => new Response('{"detail":"no readings"}', { status });
    return api.heatCourse(1).catch(w.noHeatWords);
  };
  assert.match(await failing(503), /not available now/);
  assert.match(await failing(404), /This service cannot tell/);
  assert.match(await failing(400), /no readings/);
});
