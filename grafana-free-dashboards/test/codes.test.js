// Every code that the service gives in place of a sentence has words on the pages. That each text is there in every
// language, texts.test.js checks.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { ALERT_REASONS, alertReasons } from '../shared/alert-reasons.js';
import { LESSONS, lessonText } from '../season/lessons.js';
import { LIGHT_ADVICE, lightAdvice } from '../container/light-words.js';
import { NO_FIT } from '../tally/no-fit.js';
import * as why from '../tally/why-words.js';
import { now } from '../shared/clock.js';
import { REASONS } from '../shared/fault-reasons.js';
import { setTemperatureUnit } from '../shared/format.js';
import { refusalWords } from '../shared/refusals.js';
import de from '../shared/texts.de.js';
import en from '../shared/texts.en.js';
import tallyDe from '../tally/texts.de.js';
import { moment, stamp } from '../shared/time-format.js';

const DESCRIPTION = readFileSync(new URL('../../src/main/resources/openapi.yaml', import.meta.url), 'utf8');

/** The codes of an enumeration in the description of the API, found by the first of them. */
function codes(first) {
  const [, all] = DESCRIPTION.match(new RegExp(`enum:\\s*\\[\\s*(${first},[^\\]]*)\\]`));
  return all
    .split(',')
    .map((code) => code.trim())
    .filter(Boolean);
}

test('every kind of fault has a reason', () => {
  assert.deepEqual(Object.keys(REASONS).sort(), codes('power-on').sort());
});

test('every reason of an alert has words, with temperatures in the unit of the reader', () => {
  assert.deepEqual(Object.keys(ALERT_REASONS), codes('trend, not-measurable'));
  const reasons = [
    { code: 'stuck', figures: { sensor: 'lid-2', quantity: 'humidity', value: 61, hours: 6.2 } },
    { code: 'disagreeing', figures: { sensor: 'lid-2', quantity: 'temperature', difference: 2, other: 'lid-1' } },
    { code: 'came-true', figures: { kind: 'cold' } },
  ];
  assert.match(
    alertReasons(reasons, 'faulty', 0),
    /^lid-2 reports 61 % .* for 6 h .*; .* differ by 2 °C, .*“Too cold”/,
  );
  setTemperatureUnit('F');
  assert.match(alertReasons(reasons, 'faulty', 0), /differ by 3\.6 °F/);
  setTemperatureUnit('C');
  assert.equal(alertReasons(undefined, 'faulty', 0), '');
  assert.equal(alertReasons([...reasons, { code: 'of-a-later-version', figures: {} }], 'faulty', 0), '');
});

test('every sign of a cause of light has advice', () => {
  assert.deepEqual(Object.keys(LIGHT_ADVICE), codes('opening, daylight, lamp-at-night'));
  const low = { sign: 'daylight', sunElevation: -2.4, sunQuarter: 'north-east' };
  assert.match(lightAdvice(low), /stood below the horizon in the north-east\)/);
  assert.match(lightAdvice({ ...low, sunElevation: 31.2 }), /in the north-east, 31° high\)/);
  assert.match(lightAdvice({ sign: 'lamp-at-night', sunElevation: -12.2 }), /was 12° below/);
});

/** Every rule with the names of its figures, as the service has them. */
function rulesOfTheService() {
  const code = readFileSync(new URL('../../src/main/java/tepidarium/reading/InputRule.java', import.meta.url), 'utf8');
  return [...code.matchAll(/^ {2}([A-Z_]+)(?:\(([^)]*)\))?[,;]$/gm)].map(([, name, figures = '']) => ({
    rule: name.toLowerCase().replaceAll('_', '-'),
    names: [...figures.matchAll(/"(\w+)"/g)].map(([, one]) => one),
  }));
}

/** Figures that differ from each other and are shown as they are. */
const exampleOf = (names) => Object.fromEntries(names.map((name) => [name, `<${name}>`]));

for (const [language, texts] of Object.entries({ en, de })) {
  test(`every rule of an input has words with all its figures (${language})`, () => {
    const rules = rulesOfTheService();
    const codesOfRules = rules.map(({ rule }) => rule);
    assert.deepEqual(Object.keys(texts.rules).sort(), codesOfRules.sort());
    assert.deepEqual(codes('missing, too-long').sort(), codesOfRules);
    for (const { rule, names } of rules) {
      const words = texts.rules[rule]('<field>', exampleOf(names));
      const said = names.filter((name) => name !== 'unit');
      assert.deepEqual(
        said.filter((name) => !words.includes(`<${name}>`)),
        [],
        `${rule}: ${words}`,
      );
    }
    assert.deepEqual(Object.keys(texts.entryKinds), codes('sown, moved'));
  });
}

test('a refusal has its field and figures; one without a rule keeps the sentence of the service', () => {
  const range = { field: 'base', rule: 'range', figures: { least: -20, most: 60.5, unit: '°C' } };
  assert.equal(refusalWords(range), 'Please check the base temperature: between −20 and 60.5 °C.');
  assert.equal(refusalWords({ field: 'noLabel', rule: 'missing', figures: {} }), 'Missing: noLabel.');
  const future = { field: 'at', rule: 'future', figures: { now: '2026-11-30T23:57:05.123Z' } };
  const local = moment('2026-11-30T23:57:05.123Z', 0);
  assert.match(local, /^\w{3} \d{1,2} \w{3} 20\d\d \d\d:\d\d$/);
  assert.ok(refusalWords(future).endsWith(`It is ${local} now.`), refusalWords(future));
  const early = { field: 'at', rule: 'too-early', figures: { earliest: '1970-01-01T00:00:00Z' } };
  assert.match(refusalWords(early), /19(69|70) \d\d:\d\d\.$/);
  assert.equal(refusalWords({ field: 'base', detail: 'base lies above ceiling' }), 'base lies above ceiling');
  assert.equal(refusalWords({ field: 'base', rule: 'a-later-rule', detail: 'base is odd' }), 'base is odd');
});

test('a refusal names its fields by the labels of the form, and shows temperatures in the chosen unit', () => {
  const higher = { field: 'ceiling', rule: 'higher', figures: { value: 20, than: 25.5, of: 'base', unit: '°C' } };
  const labels = { ceiling: 'Ceiling', base: 'Base' };
  const labelOf = (field) => labels[field];
  assert.equal(refusalWords(higher, labelOf), 'Please check Ceiling: 20 °C must lie above Base, 25.5 °C.');
  const range = (unit) => ({ field: 'x.deadband', rule: 'range', figures: { least: 0, most: 10, unit } });
  setTemperatureUnit('F');
  try {
    assert.equal(refusalWords(higher, labelOf), 'Please check Ceiling: 68 °F must lie above Base, 77.9 °F.');
    assert.equal(refusalWords(range('°C')), 'Please check the deadband: between 32 and 50 °F.');
    assert.equal(refusalWords(range('K')), 'Please check the deadband: between 0.0 and 18.0 °F.');
  } finally {
    setTemperatureUnit('C');
  }
  assert.equal(refusalWords(range('K')), 'Please check the deadband: between 0 and 10 °C.');
  const least = { field: 'uncertainty', rule: 'range', figures: { least: 0, unit: '%' } };
  assert.equal(refusalWords(least), 'Please check the uncertainty: at least 0 %.');
});

test('only what is measured has the unit; a form may take percent, or °C also from readers in °F', () => {
  const same = { rule: 'same-reading', figures: { value: 24.53, unit: '°C', hours: 12 } };
  const offset = { field: 'temperatureOffset', rule: 'range', figures: { least: -10, most: 10, unit: 'K' } };
  const label = () => 'Add to temperature';
  setTemperatureUnit('F');
  try {
    assert.match(refusalWords(same), /^Two points within 12 h have the same reading, 76\.2 °F\./);
    assert.match(refusalWords(same, undefined, 'celsius'), /within 12 h have the same reading, 24\.53 °C\./);
    assert.equal(refusalWords(offset, label, 'celsius'), 'Please check Add to temperature: between −10 and 10 °C.');
  } finally {
    setTemperatureUnit('C');
  }
  const fraction = { field: 'fraction', rule: 'range', figures: { least: 0, most: 1, unit: '' } };
  assert.equal(
    refusalWords(fraction, () => 'Usually germinates', 'percent'),
    'Please check Usually germinates: between 0 and 100 %.',
  );
  assert.equal(
    refusalWords({ rule: 'too-few-seeds', figures: { group: '1-1', stage: 'germinated', wanted: 3, available: 2 } }),
    'Group 1-1 does not have that many germinated seeds at that time: 3 entered, 2 there.',
  );
  assert.equal(
    refusalWords({ field: 'topics', rule: 'count', figures: { most: 50 } }),
    'Please check the topics: 50 at most.',
  );
});

test('the times of a sentence of the service are shown in the zone of the page', () => {
  const instant = '2026-03-19T23:30:00Z';
  assert.equal(refusalWords({ detail: `from is ${instant}` }), `from is ${stamp(instant, now())}`);
});

test('a contradiction names the other entry that it would make impossible', () => {
  const problem = {
    rule: 'too-few-seeds',
    figures: { group: '3-1', stage: 'ungerminated', wanted: 12, available: 10 },
    entry: { kind: 'checked', at: '2026-11-30T12:00:00Z' },
  };
  assert.match(
    refusalWords(problem),
    /another one would be impossible: the check, .* 2026 .*\. Group 3-1 .*: 12 entered, 10 there\.$/,
  );
});

test('every reason why no curve fits has words', () => {
  assert.deepEqual(Object.keys(NO_FIT), codes('no-check, none-germinated'));
});

test('every reason for a check, no forecast, no verdict, no base and no curve has words', () => {
  assert.deepEqual(Object.keys(why.NEXT_CHECK), codes('week-after-check'));
  assert.deepEqual(Object.keys(why.NO_FORECAST), codes('no-seeds'));
  assert.deepEqual(Object.keys(why.CANNOT_BE_TOLD), codes('one-group'));
  assert.deepEqual(Object.keys(why.NO_BASE), codes('unidentified'));
  assert.deepEqual(Object.keys(why.NO_LINE), codes('few-temperatures'));
  assert.deepEqual(Object.keys(why.NO_CURVE), codes('few-sowings'));
});

test('a reason has its figures; one with an unknown code keeps the sentence of the service', () => {
  const because = [
    { code: 'pot-on', figures: { germinated: 4, rootCm: 1.5 } },
    { code: 'days-over', figures: { days: 42 } },
  ];
  assert.equal(
    why.checkWhy({ why: 'so', because }),
    '4 germinated, to be potted on with roots of 1.5 cm; the usual time is over (42 days): continue or stop?',
  );
  const after = (days) => why.checkWhy({ because: [{ code: 'usual-days', figures: { days } }] });
  assert.deepEqual(
    [after(1), after(2.5)],
    ['the first usually germinate after 1 day', 'the first usually germinate after 2.5 days'],
  );
  assert.match(tallyDe.usuallyAfterDays('1 Tag'), /nach 1 Tag$/);
  assert.match(tallyDe.usuallyAfterDays('2,5 Tage'), /nach 2,5 Tagen$/);
  assert.equal(why.checkWhy({ why: 'so', because: [{ code: 'a-later-code', figures: {} }] }), 'so');
  const noForecastFor = [
    { code: 'too-few', groups: [] },
    { code: 'unlikely', groups: ['1-1', '1-2'] },
  ];
  assert.match(why.noForecastWords({ noForecastFor }), /^too few .* need; 1-1, 1-2: less than a tenth/);
  assert.equal(why.noForecastWords({ noForecast: null, noForecastFor: [] }), '');
  assert.equal(why.noForecastWords({ noForecast: 'so', noForecastFor: [{ code: 'new', groups: [] }] }), 'so');
  assert.match(why.noteWords({ note: 'so', noteCode: 'flat', noteEndsOnly: true }), /^for the ends .*: more than one/);
});

test('every lesson has words; one kept without figures keeps its sentence', () => {
  assert.deepEqual(Object.keys(LESSONS), codes('cold, hot, dry'));
  const figures = { name: 'Closet', low: 29.5, share: 0.1, hours: 48, lost: 192, averageDays: 0.5, others: 0 };
  assert.equal(
    lessonText({ kind: 'cold', words: 'so', figures }),
    'Closet was below 29.5 °C for 10 % of the measured time (48 h). Compared with that limit it lost 192 °C·h, the heat of 0.5 average days.',
  );
  assert.equal(lessonText({ kind: 'cold', words: 'below 29.5 °C' }), 'below 29.5 °C');
  const pair = { first: 'A', second: 'B', needed: 310, smaller: 40 };
  assert.match(
    lessonText({ kind: 'undecided', words: 'so', figures: pair }),
    /about 310 seeds; the smaller one had 40/,
  );
});
