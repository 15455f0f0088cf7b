import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as w from '../tally/seed-words.js';
import * as keeping from '../tally/viability-words.js';
import * as compared from '../tally/compare-words.js';
import * as entryWords from '../tally/entry-words.js';

test('a fraction comes with its interval', () => {
  assert.equal(w.countWords(45, 250), '18 % (95 %: 14 to 23 %)');
  assert.equal(w.countWords(3, 16), '19 % (95 %: 7 to 43 %)');
  assert.equal(w.countWords(0, 10), '0 % (95 %: 0 to 28 %)');
  assert.equal(w.countWords(10, 10), '100 % (95 %: 72 to 100 %)');
  assert.equal(w.countWords(1, 400), '0.3 % (95 %: 0 to 1 %)');
});

test('Wilson: 81 of 263 gives 25.5 to 36.6 % (Newcombe, Statistics in Medicine 17, 1998, 857-872, table I)', () => {
  const [low, high] = w.wilson(81, 263);
  assert.ok(Math.abs(low - 0.2553) < 5e-5 && Math.abs(high - 0.3662) < 5e-5);
});

const side = (germinated, sown, more = {}) => ({
  fraction: { germinated, sown, fraction: germinated / sown, wilson: w.wilson(germinated, sown) },
  remaining: 0,
  notLookedAt: 0,
  lastCheckDay: 42,
  remainingWatchedDays: null,
  ...more,
});

test('3 of 16 against 45 of 250 says almost nothing, and the words say so', () => {
  const told = compared.comparisonWords(
    {
      a: side(3, 16),
      b: side(45, 250),
      difference: { difference: 0.0075, newcombe: [-0.117, 0.252], fisherP: 1, seedsEachForPower80: 41_800 },
      logRank: null,
    },
    ['A', 'B'],
  );
  assert.match(told.headline, /almost nothing/);
  assert.ok(told.lines.some((line) => line.includes('41\u202f800 seeds') && line.includes('16 and 250')));
});

test('a clear difference names the better one; an unfinished one warns', () => {
  const told = compared.comparisonWords(
    {
      a: side(5, 80),
      b: side(60, 80, { remaining: 4 }),
      difference: { difference: -0.6875, newcombe: [-0.77, -0.56], fisherP: 1e-12, seedsEachForPower80: 8 },
      logRank: { chiSquare: 70, p: 1e-16 },
    },
    ['A', 'B'],
  );
  assert.match(told.headline, /^B did better/);
  assert.ok(told.lines.some((line) => line.startsWith('Not over yet')));
  assert.ok(told.lines.some((line) => line.includes('p = under 0.001')));
});

test('seeds that nobody looked at are told, and are no failures', () => {
  assert.match(
    w.germinatedWords({ germinated: 40, sown: 100, notLookedAt: 50 }),
    /^40 of 50 germinated: 80 % \(.*\); 50 seeds not looked at yet$/,
  );
  assert.equal(w.germinatedWords({ germinated: 0, sown: 20, notLookedAt: 20 }), '20 seeds sown, not looked at yet');
  const told = compared.comparisonWords(
    { a: side(0, 0, { notLookedAt: 20 }), b: side(5, 10), difference: null, logRank: null },
    ['A', 'B'],
  );
  assert.match(told.headline, /Nothing to compare/);
  assert.match(told.lines[0], /seeds of A\.$/);
});

test('equal fractions are no proof', () => {
  const told = compared.comparisonWords(
    {
      a: side(5, 50),
      b: side(5, 50),
      difference: { difference: 0, newcombe: [-0.13, 0.13], fisherP: 1, seedsEachForPower80: null },
      logRank: null,
    },
    ['A', 'B'],
  );
  assert.match(told.headline, /almost nothing/);
  assert.ok(told.lines.some((line) => line.includes('no proof')));
});

test('when to stop: said with its uncertainty, or that it cannot be said', () => {
  const prospect = (soon, ever, high) => ({
    soon,
    soonLimits: [0, high],
    ever,
    everLimits: [0, high],
    expectedMore: 0.4,
    assumption: 'The seeds are sound.',
  });
  const of = (one) => w.prospectWords({ prospect: one, remaining: 9, day: 30.6, giveUpDays: 42 });
  assert.match(of(prospect(0.01, 0.02, 0.05)).headline, /can stop/);
  assert.match(of(prospect(0.7, 0.9, 1)).headline, /within a week/);
  assert.match(of(prospect(0.1, 0.3, 0.9)).headline, /uncertain/);
  assert.match(of(null).headline, /cannot tell/);
  assert.ok(of(prospect(0.1, 0.3, 0.9)).lines[2].includes('42 days; this is day 30'));
  assert.match(w.prospectWords({ prospect: null, remaining: 0, day: 3 }).headline, /^Done/);
});

test('how long seed keeps: told with its interval, or why not', () => {
  const none = keeping.viabilityPanel({
    identified: false,
    reason: 'it takes more days',
    groups: [],
    notFinal: 2,
    curve: [],
  });
  assert.equal(none.headline, 'How long seed keeps cannot be estimated yet: it takes more days.');
  assert.deepEqual(none.rows, [['Not counted', '2 sowings not finished yet']]);
  const curve = [
    { days: 0, fraction: 0.9, interval: [0.8, 0.95] },
    { days: 10, fraction: 0.1, interval: [0.05, 0.2] },
  ];
  const told = keeping.viabilityPanel({
    identified: true,
    reason: null,
    groups: [{ lot: 1 }, { lot: 1 }, { lot: 2 }],
    notFinal: 0,
    halfDays: 5,
    halfDaysInterval: [4, 6.5],
    dispersion: 2,
    curve,
  });
  assert.equal(
    told.headline,
    'Fewer germinate the longer seed is kept: 90 % (95 %: 80 to 95 %) after 0 days, 10 % (95 %: 5 to 20 %) after 10 days.',
  );
  assert.deepEqual(told.rows[0], ['Half germinate', 'after 5.0 days (95 %: 4.0 to 6.5)']);
  assert.equal(keeping.viabilityWords(curve[0]), ', 90 % (95 %: 80 to 95 %) would germinate if sown now');
  assert.equal(keeping.viabilityWords(null), '');
});

test('checks and entries as a line', () => {
  assert.equal(
    entryWords.checkWords({ germinated: 3, culled: [{ count: 2, reason: 'mould' }], pottedOn: 1 }),
    '3 newly germinated, 2 culled (mould), 1 potted on',
  );
  assert.equal(entryWords.checkWords({}), 'nothing new');
  assert.equal(
    entryWords.entryWords(
      { group: '1-1', move: { to: 'bag', ungerminated: 0, germinated: 4, splitInto: '1-2', joinTo: null } },
      (id) => `“${id}”`,
    ),
    'Group 1-1: 4 germinated moved to “bag”, now group 1-2',
  );
  assert.equal(
    entryWords.entryWords({ sown: { groups: [{ container: 'jar', seeds: 1, group: '1-1' }] } }, () => 'Jar'),
    'Sown: 1 seed into Jar (group 1-1)',
  );
});

test('when a check is due', () => {
  const now = Date.parse('2026-03-01T12:00:00Z');
  assert.equal(w.dueWords('2026-03-01T15:00:00Z', now), 'check due today');
  assert.equal(w.dueWords('2026-03-08T12:00:00Z', now), 'check due in 7 days');
  assert.equal(w.dueWords('2026-02-25T12:00:00Z', now), 'check overdue by 4 days');
});

const together = {
  strata: 3,
  difference: 0.283,
  differenceInterval: [0.117, 0.45],
  oddsRatio: 3.46,
  oddsRatioInterval: [1.59, 7.54],
  chiSquare: 9.95,
  p: 0.0016,
  heterogeneity: { chiSquare: 0.24, degreesOfFreedom: 2, p: 0.89 },
  perStratum: { difference: 0.283, interval: [0.15, 0.42] },
  flipsP: 0.25,
  leastFlipsP: 0.25,
};
const lots = [1, 2, 3].map((lot) => ({ lot }));

test('heat sources are judged within lots, and what few lots cannot tell is said', () => {
  const told = compared.sourcesWords({ first: 'closet', second: 'mat', lots, together });
  assert.equal(told.headline, 'closet did better than mat, within the same lots.');
  assert.match(told.lines[0], /\+28 percentage points over all \(95 %: \+12 to \+45/);
  assert.ok(told.lines.some((line) => line.includes('with 3 lots no p can be under 0.25')));
  const open = compared.sourcesWords({
    first: 'closet',
    second: 'mat',
    lots: lots.slice(1, 2),
    together: {
      ...together,
      p: 0.4,
      oddsRatio: null,
      oddsRatioInterval: null,
      heterogeneity: null,
      perStratum: { difference: 0.1, interval: null },
    },
  });
  assert.equal(open.headline, 'No clear difference yet between closet and mat.');
  assert.ok(open.lines.some((line) => line.startsWith('One lot is one trial')));
  const exact = compared.sourcesWords({
    first: 'closet',
    second: 'mat',
    lots,
    together: { ...together, exactP: 0.06 },
  });
  assert.equal(exact.headline, 'No clear difference yet between closet and mat.');
  assert.match(exact.lines[0], /exact test: p = 0.06/);
  assert.match(
    compared.sourcesWords({
      first: 'closet',
      second: 'mat',
      lots,
      together: { ...together, heterogeneity: { p: 0.002 } },
    }).headline,
    /the lots disagree/,
  );
});

test('groups of a sowing are tested as replicates', () => {
  const told = {
    replicates: 3,
    germinated: 16,
    sown: 48,
    fraction: 1 / 3,
    interval: [0.2, 0.5],
    p: 0.0686,
    exact: true,
    differ: false,
    range: 0.375,
    toleratedRange: 0.434,
  };
  const same = compared.replicateWords(told);
  assert.equal(same.headline, 'The groups do not differ by more than chance allows.');
  assert.match(same.lines.join(' '), /38 percentage points apart\. Seed testing tolerates 43 points for 3 groups/);
  assert.ok(same.lines.some((line) => line.includes('0.069 (exact')));
  const apart = compared.replicateWords({ ...told, p: 0.001, exact: false, differ: true, toleratedRange: null });
  assert.match(apart.headline, /more than chance allows: look for a cause/);
  assert.ok(apart.lines.some((line) => line.includes('95 %: 20 to 50 %')));
  assert.equal(compared.replicateWords(null), null);
});

test('indices start with the second check and after a day', () => {
  const check = (day) => ({ day });
  assert.equal(w.hasIndices([]), false);
  assert.equal(w.hasIndices([check(3)]), false);
  assert.equal(w.hasIndices([check(0.0005), check(0.001)]), false);
  assert.equal(w.hasIndices([check(0.5), check(1)]), true);
});
