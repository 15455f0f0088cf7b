import assert from 'node:assert/strict';
import { test } from 'node:test';
import { api } from '../shared/api.js';
import { checkWords } from '../tally/entry-words.js';
import { tableOf, takenWords, troubleByLine } from '../tally/import.js';
import { readLengths } from '../tally/check-fields.js';

test('root lengths: apart by semicolons, commas or spaces; a comma within a number is a decimal point', () => {
  assert.deepEqual(readLengths(''), []);
  assert.deepEqual(readLengths('2.5; 3;4'), [2.5, 3, 4]);
  assert.deepEqual(readLengths('2,5, 3, 4,1'), [2.5, 3, 4.1]);
  assert.deepEqual(readLengths(' 2,5 3 '), [2.5, 3]);
  for (const wrong of ['long', '-1', '201', '2,5,3']) assert.throws(() => readLengths(wrong), /Root lengths/);
  assert.equal(checkWords({ germinated: 1, rootLengthsCm: [2.5, 3] }), '1 newly germinated, roots of 2.5; 3 cm');
});

test('what an import answers', () => {
  assert.equal(takenWords('Seed lots', { rows: 12, added: 3 }), 'Seed lots: 12 rows read, 3 new.');
  assert.equal(takenWords('Species', { rows: 1, added: 0 }), 'Species: 1 row read, nothing new.');
  assert.equal(takenWords('Species', { rows: 0, added: 0 }), 'Species: the file holds no row.');
  assert.equal(tableOf('Lots (2).csv'), 'lots');
  assert.equal(tableOf('harvest.csv'), null);
});

test('the problems of an import are listed line by line', () => {
  assert.deepEqual(
    troubleByLine({ message: 'nothing was imported: line 2: no such species; line 5: seeds: a number; and 3 more' }),
    {
      message: 'Nothing was imported:',
      problems: ['line 2: no such species', 'line 5: seeds: a number', 'and 3 more'],
    },
  );
  assert.deepEqual(troubleByLine({ message: 'the text is not valid CSV' }), {
    message: 'the text is not valid CSV',
    problems: [],
  });
});

test('a table and a picture go as they are', async () => {
  const realFetch = globalThis.fetch;
  const asked = [];
  globalThis.fetch = async (url, request) => {
    asked.push([url, request.method, request.headers['Content-Type'], request.body]);
    return url.includes('photo') ? new Response(null, { status: 204 }) : Response.json({ rows: 1, added: 1 });
  };
  try {
    const picture = new Blob(['x'], { type: 'image/jpeg' });
    await api.importTable('lots', 'lot,species\r\n');
    await api.putPhoto('e-1', picture);
    assert.deepEqual(asked, [
      ['/api/import/lots', 'POST', 'text/csv', 'lot,species\r\n'],
      ['/api/entries/e-1/photo', 'PUT', 'image/jpeg', picture],
    ]);
  } finally {
    globalThis.fetch = realFetch;
  }
});
