import assert from 'node:assert/strict';
import { test } from 'node:test';
import { arrange, densityFor } from '../shelf/arrange.js';
import { forEach, withLimits } from '../shelf/bulk-work.js';
import { isUsual, keepChoice, partOf, readChoice } from '../shelf/choice.js';
import { groupTitle, shownWords } from '../shelf/words.js';

const item = (name, more = {}) => ({
  container: { id: name, name, room: null, heatSource: null, latest: {}, ...more.container },
  level: more.level ?? 'fine',
  check: more.check ?? null,
  species: more.species ?? '',
});
const warm = (value) => ({ latest: { temperature: { value } } });
const ALL = { group: 'none', sort: 'worst', search: '', room: '', state: '' };
const names = (groups) => groups.map((group) => group.items.map((one) => one.container.name));

test('the worst come first, then by name with its number as a number', () => {
  const items = [item('Jar 10'), item('Jar 2'), item('Box', { level: 'watch' }), item('Tray', { level: 'act' })];
  assert.deepEqual(names(arrange(items, ALL)), [['Tray', 'Box', 'Jar 2', 'Jar 10']]);
  assert.deepEqual(names(arrange(items, { ...ALL, sort: 'name' })), [['Box', 'Jar 2', 'Jar 10', 'Tray']]);
});

test('what is not known comes last, whether the warmest or the coldest come first', () => {
  const items = [item('none'), item('cold', { container: warm(20) }), item('warm', { container: warm(30) })];
  assert.deepEqual(names(arrange(items, { ...ALL, sort: 'warmest' })), [['warm', 'cold', 'none']]);
  assert.deepEqual(names(arrange(items, { ...ALL, sort: 'coldest' })), [['cold', 'warm', 'none']]);
  const due = [item('none'), item('later', { check: 2 }), item('now', { check: 1 })];
  assert.deepEqual(names(arrange(due, { ...ALL, sort: 'check' })), [['now', 'later', 'none']]);
});

test('groups stand by name, the one without a room last; groups of states stand worst first', () => {
  const inRoom = (name, room, level) => item(name, { container: { room }, level });
  const items = [
    inRoom('a', null),
    inRoom('b', 'Bench 10', 'act'),
    inRoom('c', 'Bench 2'),
    inRoom('d', 'Bench 2', 'silent'),
  ];
  const rooms = arrange(items, { ...ALL, group: 'room' });
  assert.deepEqual(
    rooms.map((group) => [group.key, group.items.length, group.waiting]),
    [
      ['Bench 2', 2, 1],
      ['Bench 10', 1, 1],
      ['', 1, 0],
    ],
  );
  const states = arrange(items, { ...ALL, group: 'state' });
  assert.deepEqual(
    states.map((group) => group.key),
    ['act', 'silent', 'fine'],
  );
  assert.equal(groupTitle('room', rooms[0]), 'Bench 2: 2 containers, 1 needs you');
  assert.equal(groupTitle('room', rooms[2]), 'No room: 1 container');
  assert.equal(groupTitle('state', states[0]), 'Needs you: 1 container');
  assert.equal(groupTitle('state', { key: 'unsure', items: [{}], waiting: 0 }), 'State unknown: 1 container');
});

test('search finds name, room, heat source and species; filters narrow it further', () => {
  const items = [
    item('Jar', { container: { room: 'Shed' }, species: 'Cacao', level: 'act' }),
    item('Box', { container: { heatSource: 'Shed mat' } }),
    item('Bag', { container: { room: 'House' }, species: 'Lychee', level: 'watch' }),
  ];
  const found = (choice) => names(arrange(items, { ...ALL, sort: 'name', ...choice })).flat();
  assert.deepEqual(found({ search: ' shed ' }), ['Box', 'Jar']);
  assert.deepEqual(found({ search: 'lych' }), ['Bag']);
  assert.deepEqual(found({ search: 'shed', room: 'Shed' }), ['Jar']);
  assert.deepEqual(found({ state: 'attention' }), ['Bag', 'Jar']);
  assert.deepEqual(found({ state: 'watch' }), ['Bag']);
});

test('few containers are cards, many rows, very many tiles, unless somebody chose', () => {
  assert.deepEqual(
    [12, 13, 100, 101].map((count) => densityFor('auto', count)),
    ['card', 'row', 'row', 'tile'],
  );
  assert.equal(densityFor('card', 3000), 'card');
});

const memory = (kept) => ({ kept, getItem: () => kept, setItem: (key, value) => (kept = value) });
const forbidden = {
  getItem() {
    throw new Error('forbidden');
  },
  setItem() {
    throw new Error('forbidden');
  },
};

test('the address wins over what the browser remembers; nonsense counts as not chosen', () => {
  const storage = memory('{"group":"room","density":"tile","search":"old"}');
  const choice = readChoice('?group=state&sort=upside-down&room=Shed', storage);
  assert.deepEqual([choice.group, choice.sort, choice.density, choice.room], ['state', 'worst', 'tile', 'Shed']);
  for (const broken of [memory('{'), memory('null'), forbidden]) assert.equal(readChoice('', broken).group, 'none');
});

test('the choice goes into the address, without what is usual; other parameters stay', () => {
  const choice = { ...readChoice('', memory(null)), group: 'room', search: 'jar 1' };
  assert.equal(keepChoice(choice, '?place=jar&sort=name', forbidden), '?place=jar&group=room&search=jar+1');
  assert.equal(keepChoice({ ...choice, group: 'none', search: '' }, '?group=room', forbidden), '');
  let stored;
  keepChoice(choice, '', { setItem: (key, value) => (stored = JSON.parse(value)) });
  assert.deepEqual(stored, { group: 'room', sort: 'worst', density: 'auto' });
});

test('the service filters only for a shelf that does not hold all', () => {
  const choice = { search: ' jar ', room: '', sort: 'warmest' };
  assert.deepEqual(partOf(choice, 300, false), { limit: 300, sort: 'worst', search: null, room: null });
  assert.deepEqual(partOf(choice, 300, true), { limit: 300, sort: 'worst', search: 'jar', room: null });
});

test('the worst few are the first screen only of the usual shelf, in any size', () => {
  const usual = readChoice('', memory(null));
  assert.ok(isUsual(usual));
  assert.ok(isUsual({ ...usual, density: 'tile' }));
  for (const other of [{ group: 'room' }, { sort: 'name' }, { search: 'jar' }, { room: 'Shed' }, { state: 'act' }])
    assert.equal(isUsual({ ...usual, ...other }), false);
});

test('it is told how many of the containers are shown', () => {
  assert.equal(shownWords({ shown: 6, held: 6, matching: 6, total: 6 }), '');
  assert.equal(shownWords({ shown: 2, held: 6, matching: 6, total: 6 }), '2 of 6 containers.');
  assert.equal(shownWords({ shown: 0, held: 6, matching: 6, total: 6 }), 'No container matches.');
  assert.equal(
    shownWords({ shown: 300, held: 300, matching: 900, total: 3000 }),
    '300 of 900 containers, the worst first.',
  );
});

test('one failure does not stop the others, and is told with its reason', async () => {
  let running = 0;
  let most = 0;
  const steps = [];
  const work = async (n) => {
    running += 1;
    most = Math.max(most, running);
    await Promise.resolve();
    running -= 1;
    if (n === 3) throw new Error('gone');
    return n * 10;
  };
  const { done, failed } = await forEach([1, 2, 3, 4, 5, 6], work, (n) => steps.push(n));
  assert.deepEqual(
    done.sort((a, b) => a - b),
    [10, 20, 40, 50, 60],
  );
  assert.deepEqual(failed, [{ item: 3, message: 'gone' }]);
  assert.deepEqual(steps, [1, 2, 3, 4, 5, 6]);
  assert.equal(most, 4);
});

test('limits that were left empty stay, and so does everything else of the container', () => {
  const container = {
    id: 'jar',
    name: 'Jar',
    kind: 'jar',
    heatSource: 'Mat',
    room: 'Shed',
    base: 12,
    ceiling: 36,
    band: { temperature: { low: 28, high: 33 }, light: { high: 2 }, humidity: { low: 85 } },
    alerts: [],
  };
  assert.deepEqual(withLimits(container, { low: 29, high: null, lightHigh: null, humidityLow: 0 }), {
    name: 'Jar',
    kind: 'jar',
    heatSource: 'Mat',
    room: 'Shed',
    base: 12,
    ceiling: 36,
    band: { temperature: { low: 29, high: 33 }, light: { high: 2 }, humidity: { low: 0 } },
  });
});
