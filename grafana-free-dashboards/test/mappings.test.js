import assert from 'node:assert/strict';
import { test } from 'node:test';
import { valueOf } from '../mappings/choice.js';
import {
  bytesOf,
  encodingOf,
  fieldsOf,
  levelsOf,
  parsed,
  placeWords,
  ruleOf,
  ruleWords,
  topicOf,
  without,
  withoutBytes,
  workOn,
} from '../mappings/rule.js';
import { readingWords } from '../mappings/words.js';

test('the fields of a message are found with their JSON Pointers', () => {
  const fields = fieldsOf(parsed('{"a/b":{"x~y":[1,{"t":"2"}]},"on":true}'));
  assert.deepEqual(
    fields.map(({ pointer, depth, value }) => [pointer, depth, value]),
    [
      ['/a~1b', 0, undefined],
      ['/a~1b/x~0y', 1, undefined],
      ['/a~1b/x~0y/0', 2, 1],
      ['/a~1b/x~0y/1', 2, undefined],
      ['/a~1b/x~0y/1/t', 3, '2'],
      ['/on', 0, true],
    ],
  );
  assert.equal(parsed('21.5'), undefined);
  assert.equal(parsed('{"a":'), undefined);
  assert.equal(fieldsOf(Array.from({ length: 1000 }, () => 1)).length, 300);
});

test('texts that may be packed bytes are told from names and numbers', () => {
  assert.equal(encodingOf('0bb8f448'), 'hex');
  assert.equal(encodingOf('0x0BB8'), 'hex');
  assert.equal(encodingOf('C7gPPA=='), 'base64');
  for (const text of ['ok', 'closet', 'jar 1', '21.5', 3000, null]) assert.equal(encodingOf(text), null, `${text}`);
  assert.deepEqual(bytesOf('0x0B b8', 'hex'), [11, 184]);
  assert.deepEqual(bytesOf('C7gPPA==', 'base64'), [11, 184, 15, 60]);
  assert.deepEqual(bytesOf('?', 'base64'), []);
});

test('the topic of a rule has one level for the sensor', () => {
  const levels = levelsOf('field/node-7/up');
  assert.equal(topicOf(levels), 'field/{sensor}/up');
  levels[2].role = 'any';
  assert.equal(topicOf(levels), 'field/{sensor}/+');
  assert.equal(topicOf(levelsOf('jar')), '{sensor}');
});

test('a rule has only what was chosen', () => {
  const packed = valueOf(
    { index: 2 },
    { unit: 'mV', length: '2', order: 'little', signed: 'false', factor: '0,5', plus: '' },
  );
  const plain = valueOf({ field: { pointer: '/t' } }, { unit: '°F', factor: '', plus: ' -1 ' });
  const rule = ruleOf({
    levels: levelsOf('a/b/c'),
    values: { battery: packed, temperature: plain },
    bytes: { pointer: '/d', encoding: 'hex' },
    at: '/time',
  });
  assert.deepEqual(rule, {
    topic: 'a/{sensor}/c',
    battery: { unit: 'mV', factor: 0.5, firstByte: 2, length: 2, order: 'little', signed: false },
    temperature: { unit: '°F', plus: -1, pointer: '/t' },
    bytes: { pointer: '/d', encoding: 'hex' },
    at: '/time',
  });
  const unpackedOnly = ruleOf({ levels: levelsOf('a/b'), values: { temperature: plain }, bytes: { encoding: 'raw' } });
  assert.equal(unpackedOnly.bytes, undefined);
  assert.throws(
    () => valueOf({ field: { pointer: '' } }, { unit: '%', factor: 'ten', plus: '' }),
    /Times must be a number/,
  );
});

test('rules and readings in words', () => {
  const units = [
    { quantity: 'temperature', units: ['°C', '°F'] },
    { quantity: 'battery', units: ['V', 'mV'] },
  ];
  assert.equal(placeWords('light', { pointer: '', firstByte: null, unit: null }), 'light at the whole payload');
  const rule = {
    topic: 'a/{sensor}',
    temperature: { pointer: '/t', unit: '°F' },
    battery: { pointer: '', firstByte: 2, length: 2 },
  };
  assert.equal(ruleWords(rule, units), 'a/{sensor}: temperature at /t in °F, battery at bytes 2 to 3');
  assert.equal(
    readingWords({ sensor: 'b', values: { temperature: 30, battery: 3.9 } }, units),
    'b: temperature 30 °C, battery 3.9 V',
  );
});

test('a payload that is no JSON object is one value or bytes', () => {
  assert.deepEqual(workOn({ topic: 'a/b', text: ' "0bb8"\n', base64: '' }).fields[0].value, '0bb8');
  const raw = workOn({ topic: 'a/b', text: null, base64: '/wA=' });
  assert.deepEqual([raw.bytes, raw.packed, raw.fields], [{ encoding: 'raw' }, [255, 0], []]);
});

test('chosen values can be left out again', () => {
  const values = { temperature: { pointer: '/t' }, light: { pointer: '/l' }, battery: { firstByte: 2 } };
  assert.deepEqual(Object.keys(without(values, { field: { pointer: '/t' } })), ['light', 'battery']);
  assert.deepEqual(Object.keys(without(values, { index: 2 })), ['temperature', 'light']);
  assert.deepEqual(Object.keys(withoutBytes(values, '/l')), ['temperature']);
});
