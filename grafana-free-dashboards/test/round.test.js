import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { test } from 'node:test';
import { dueStops, keptRound, marked, newRound, nextStop, skippedAgain, stopsThat } from '../tally/round-plan.js';

const NOW = new Date(2026, 2, 29, 10).getTime();
const group = (id, container, day) => ({
  id,
  container,
  nextCheck: day === null ? null : { at: new Date(2026, 2, 29 + day, 18).toISOString() },
});
const sowings = [
  { species: 'fig', groups: [group('1-1', 'jar', 0), group('1-2', 'box', -1), group('1-3', 'tin', 1)] },
  { species: 'oak', groups: [group('2-1', 'bag', -4), group('2-2', 'jar', -2), group('2-3', 'tray', null)] },
];
const ROOMS = { jar: 'Bench 10', box: 'Bench 10', tin: 'Bench 2', bag: null };
const roomOf = (container) => ROOMS[container] ?? null;
const stops = (choice) =>
  dueStops(sowings, NOW, { roomOf, species: '', room: '', ...choice }).map((stop) => stop.group);

test('a round goes room by room, and to the container first that waits longest; its groups stay together', () => {
  assert.deepEqual(stops(), ['1-1', '2-2', '1-2', '2-1']);
});

test('a round can be limited to a room or a species', () => {
  assert.deepEqual(stops({ room: 'Bench 10' }), ['1-1', '2-2', '1-2']);
  assert.deepEqual(stops({ species: 'oak' }), ['2-2', '2-1']);
});

test('next is the first that waits, or that of the scanned container', () => {
  let round = newRound(dueStops(sowings, NOW, { roomOf, species: '', room: '' }), NOW);
  assert.equal(nextStop(round).group, '1-1');
  assert.equal(nextStop(round, 'bag').group, '2-1');
  assert.equal(nextStop(round, 'unknown').group, '1-1');
  round = marked(marked(round, '1-1', 'done'), '2-2', 'skipped');
  assert.equal(nextStop(round).group, '1-2');
  round = marked(marked(round, '1-2', 'done'), '2-1', 'done');
  assert.equal(nextStop(round), null);
  assert.deepEqual(
    stopsThat(round, 'done').map((stop) => stop.group),
    ['1-1', '1-2', '2-1'],
  );
  assert.equal(nextStop(skippedAgain(round)).group, '2-2');
});

test('a round is gone on with for half a day, if something of it waits', () => {
  const round = newRound([{ group: '1-1', container: 'jar', state: 'waiting' }], NOW);
  assert.deepEqual(keptRound(JSON.stringify(round), NOW + 3600_000), round);
  assert.equal(keptRound(JSON.stringify(round), NOW + 13 * 3600_000), null);
  assert.equal(keptRound(JSON.stringify(marked(round, '1-1', 'done')), NOW), null);
  for (const broken of [null, '{', '{}', '[]']) assert.equal(keptRound(broken, NOW), null);
});

test('a round is as dark as the dark scheme', async () => {
  const read = (name) => readFile(new URL(`../${name}`, import.meta.url), 'utf8');
  const colours = (css) =>
    Object.fromEntries([...css.matchAll(/(--[\w-]+): ([^;]+);/g)].map(([, name, value]) => [name, value]));
  const dark = (await read('shared/style.css')).match(
    /@media \(prefers-color-scheme: dark\) \{\s*:root \{([^}]*)\}/,
  )[1];
  const night = (await read('tally/tally.css')).match(/\.night \{([^}]*)\}/)[1];
  assert.ok(Object.keys(colours(dark)).length > 10);
  assert.deepEqual(colours(night), colours(dark));
});
