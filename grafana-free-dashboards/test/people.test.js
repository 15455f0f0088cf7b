import assert from 'node:assert/strict';
import { test } from 'node:test';
import { loginAddress, targetOf } from '../login/target.js';
import { deviceWords, guessWords, tokenWords } from '../people/words.js';
import { includes } from '../shared/visitor.js';

const NOW = Date.parse('2026-03-01T12:00:00Z');

test('after the sign-in, the page that was asked for opens', () => {
  assert.equal(targetOf('?to=%2Fcontainer.html%3Fid%3Djar-1'), '/container.html?id=jar-1');
  assert.equal(targetOf(''), '/');
});

test('an address of another site is never opened', () => {
  for (const to of ['https://other.example', '//other.example', '/\\other.example', 'javascript:alert(1)', '/\t/x'])
    assert.equal(targetOf(`?to=${encodeURIComponent(to)}`), '/', to);
});

test('the login page does not lead back to itself', () => {
  assert.equal(targetOf('?to=%2Flogin.html'), '/');
});

test('the login page remembers the page with its query', () => {
  const place = { pathname: '/container.html', search: '?id=jar-1', hash: '#heat' };
  assert.equal(targetOf(loginAddress(place).slice('/login.html'.length)), '/container.html?id=jar-1#heat');
});

test('a role includes the ones before it', () => {
  assert.ok(includes('own', 'tend'));
  assert.ok(includes('tend', 'tend'));
  assert.ok(!includes('look', 'tend'));
  assert.ok(!includes('none', 'look'));
});

test('a device is named by browser and system', () => {
  const phone = 'Mozilla/5.0 (Linux; Android 14; Pixel 8) AppleWebKit/537.36 Chrome/126.0 Mobile Safari/537.36';
  assert.equal(deviceWords(phone), 'Chrome, Android');
  assert.equal(deviceWords(''), 'Unknown device');
});

test('a token that ended says so', () => {
  const token = { name: 'logger', role: 'look', endsAt: '2026-02-01T00:00:00Z', usedAt: null };
  assert.match(tokenWords(token, NOW), /^logger · look · ended .* · never used$/);
});

test('wrong passwords are counted, and a name that nobody has is not repeated', () => {
  assert.equal(guessWords({ lastDay: 0, latest: [] }, NOW), 'No wrong password in the past 24 hours.');
  const latest = [{ at: '2026-03-01T11:00:00Z', address: '192.168.1.7', person: null }];
  assert.match(
    guessWords({ lastDay: 2, latest }, NOW),
    /^2 wrong passwords .* for an unknown name from 192\.168\.1\.7/,
  );
});
