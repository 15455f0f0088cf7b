// Every code that the service gives in place of a sentence has words on the pages. That each text is there in every
// language, texts.test.js checks.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { LIGHT_ADVICE, lightAdvice } from '../container/light-words.js';
import { NO_FIT } from '../tally/no-fit.js';
import { REASONS } from '../shared/fault-reasons.js';
import { RULES, refusalWords } from '../shared/refusals.js';
import { moment } from '../shared/time-format.js';

const DESCRIPTION = readFileSync(new URL('../../src/main/resources/openapi.yaml', import.meta.url), 'utf8');

/** The codes of an enumeration in the description of the API, found by the first of them. */
function codes(first) {
  const [, all] = DESCRIPTION.match(new RegExp(`enum:\\s*\\[(${first},[^\\]]*)\\]`));
  return all.split(',').map((code) => code.trim());
}

test('every kind of fault has a reason', () => {
  assert.deepEqual(Object.keys(REASONS).sort(), codes('power-on').sort());
});

test('every sign of a cause of light has advice', () => {
  assert.deepEqual(Object.keys(LIGHT_ADVICE), codes('opening, daylight, lamp-at-night'));
  const low = { sign: 'daylight', sunElevation: -2.4, sunQuarter: 'north-east' };
  assert.match(lightAdvice(low), /stood below the horizon in the north-east\)/);
  assert.match(lightAdvice({ ...low, sunElevation: 31.2 }), /in the north-east, 31° high\)/);
  assert.match(lightAdvice({ sign: 'lamp-at-night', sunElevation: -12.2 }), /was 12° below/);
});

test('every rule of an input has words; other refusals keep the sentence of the service', () => {
  assert.deepEqual(Object.keys(RULES), codes('missing, too-long'));
  const range = { field: 'base', rule: 'range', figures: { least: -20, most: 60.5, unit: '°C' } };
  assert.equal(refusalWords(range), 'Please check the base temperature: between −20 and 60.5 °C.');
  assert.equal(refusalWords({ field: 'noLabel', rule: 'missing', figures: {} }), 'Missing: noLabel.');
  const future = { field: 'at', rule: 'future', figures: { now: '2026-11-30T23:57:05.123Z' } };
  const local = moment('2026-11-30T23:57:05.123Z', 0);
  assert.match(local, /^\w{3} \d{1,2} \w{3} 20\d\d \d\d:\d\d$/);
  assert.ok(refusalWords(future).endsWith(`It is ${local} now.`), refusalWords(future));
  assert.equal(refusalWords({ field: 'base', detail: 'base lies above ceiling' }), 'base lies above ceiling');
  assert.equal(refusalWords({ field: 'base', rule: 'a-later-rule', detail: 'base is odd' }), 'base is odd');
});

test('every reason why no curve fits has words', () => {
  assert.deepEqual(Object.keys(NO_FIT), codes('no-check, none-germinated'));
});
