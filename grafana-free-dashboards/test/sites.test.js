// The states of sites in words.

import assert from 'node:assert/strict';
import { test } from 'node:test';
import de from '../sites/texts.de.js';
import { cardOf, verdictOf } from '../sites/words.js';

const NOW = Date.parse('2026-05-01T10:00:00Z');
const STATE = {
  name: 'North',
  machine: 'shed',
  version: '1',
  time: '2026-05-01T10:00:00Z',
  down: [],
  lease: { epoch: 3, since: '2026-05-01T09:00:00Z', renewedSecondsAgo: 0.5 },
  waiting: [],
  readings: { perMinute: 4, queue: 0, newest: null },
  disk: { freeBytes: 2 ** 31, secondsUntilFull: null },
  backup: { last: null, elsewhere: true },
  highAlerts: 0,
  takeOvers: { count: 0, newest: [] },
};
const site = (name, status, trouble, state = STATE) => ({
  name,
  address: 'https://north.example.org',
  status,
  trouble,
  detail: null,
  since: null,
  machines: 1,
  machinesWaiting: 0,
  state,
});
const up = site('North', 'up', 'none');
const attention = site('East', 'attention', 'nobodyWaits');
const unknown = site('South', 'unknown', 'notAsked', null);

test('a site that was not asked yet is not said to work', () => {
  assert.equal(verdictOf([up]), 'All sites work.');
  assert.equal(verdictOf([unknown, up]), 'Not asked yet: South.');
  assert.equal(verdictOf([attention, unknown, up]), 'Look at East when there is time. Not asked yet: South.');
  assert.equal(verdictOf([attention, up]), 'All sites work. Look at East when there is time.');
  assert.equal(verdictOf([site('West', 'down', 'broker'), unknown]), 'Something is wrong at West.');
});

test('one address and several addresses that do not answer', () => {
  const silent = (machines) => cardOf({ ...site('North', 'down', 'unreachable', null), machines }, NOW).sentence;
  assert.match(silent(1), /^Its address does not answer\./);
  assert.match(silent(2), /^None of its 2 addresses answers\./);
});

test('an answer that cannot be shown spoils its own card only', () => {
  const { word, sentence, facts } = cardOf(up, NOW);
  assert.deepEqual([word, sentence, facts.length], ['Works.', 'Everything works there.', 11]);
  for (const more of [{ takeOvers: { count: 1, newest: [] } }, { waiting: [null] }, { readings: undefined }]) {
    const card = cardOf({ ...up, state: { ...STATE, ...more } }, NOW);
    assert.deepEqual(
      [card.status, card.sentence, card.facts],
      ['unknown', 'This page cannot show what it says. Compare the versions.', []],
    );
  }
  assert.equal(cardOf(site('North', 'down', 'aLaterTrouble'), NOW).status, 'unknown');
});

test('in German, what there is none of has its gender', () => {
  assert.deepEqual([de.nobody, de.noReading, de.noTakeOver], ['keiner', 'keiner', 'keine']);
});
