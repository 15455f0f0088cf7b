import assert from 'node:assert/strict';
import { test } from 'node:test';
import { api } from '../shared/api.js';
import { checkWords } from '../tally/entry-words.js';
import { readLengths } from '../tally/check-fields.js';

test('root lengths: apart by semicolons, commas or spaces; a comma within a number is a decimal point', () => {
  assert.deepEqual(readLengths(''), []);
  assert.deepEqual(readLengths('2.5; 3;4'), [2.5, 3, 4]);
  assert.deepEqual(readLengths('2,5, 3, 4,1'), [2.5, 3, 4.1]);
  assert.deepEqual(readLengths(' 2,5 3 '), [2.5, 3]);
  for (const wrong of ['long', '-1', '201', '2,5,3']) assert.throws(() => readLengths(wrong), /Root lengths/);
  assert.equal(checkWords({ germinated: 1, rootLengthsCm: [2.5, 3] }), '1 newly germinated, roots of 2.5; 3 cm');
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
