// The Tally: count seeds, move them, see what came of them. Entries that cannot be sent wait in the browser.

import { api } from '../shared/api.js';
import { announce, byId, h, problemBox, reconcile, setOptions, setText } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { now } from '../shared/clock.js';
import { startPage, untilItWorks } from '../shared/page.js';
import { checkWords, dueWords, germinatedWords } from './seed-words.js';
import { makeComparison, makeSources } from './compare.js';
import { makeImport } from './import.js';
import { makeHeatOrDays } from './heat-or-days.js';
import { confirmWithdrawal, showRecord } from './record.js';
import { keepPicture, pictureField } from './photo.js';
import { checkFields, counter, openSheet, remarkField, whenField } from './sheet.js';
import { makeStart } from './start.js';
import { makeUnsent, withUnsent } from './unsent.js';

const SEND_AGAIN_MS = 4000;
const LOOK_AGAIN_MS = 60_000;
const PATIENCE_MS = 2500;
const DUE_SHOWN = 6;

let tally = null;
let arrivals = 0;
const places = new Map();
const storage = {
  getItem: (key) => localStorage.getItem(key),
  setItem: (key, value) => localStorage.setItem(key, value),
};
const unsent = makeUnsent({
  storage,
  send: (entry) => api.write(entry.path, entry.body),
  changed: () => draw(),
  sent: (entry, answer) => arrived(entry, answer),
});
const names = (id) => places.get(id)?.name ?? id;
const nameOf = (sowing) => `${sowing.name ?? sowing.speciesName}, sowing ${sowing.id}`;
const start = makeStart({
  host: byId('start'),
  done: (words, next) => {
    say(words);
    start.show(next);
    load().catch(showTrouble);
  },
});
const comparison = makeComparison(byId('compare-part'), nameOf);
makeImport(byId('export-part'), () => load().catch(showTrouble));
const sources = makeSources(byId('sources-part'));
const heatOrDays = makeHeatOrDays(byId('heat-or-days-part'));

startPage({ current: '/tally.html', reload: () => unsent.flush().then(load).catch(showTrouble), redraw });
begin();

async function begin() {
  drawUnsent();
  try {
    await untilItWorks(load, showTrouble);
  } catch (problem) {
    showTrouble(problem);
    return;
  }
  byId('loading').remove();
  byId('start').hidden = false;
  byId('export-part').hidden = false;
  start.next(tally);
  setInterval(() => unsent.flush(), SEND_AGAIN_MS);
  addEventListener('online', () => unsent.flush());
  setInterval(() => load().catch(() => {}), LOOK_AGAIN_MS);
}

/** An entry that arrives while the tally is on its way makes that one old: it is asked for again. */
async function load() {
  const before = arrivals;
  const told = await api.tally();
  if (before !== arrivals) return load();
  tally = told;
  places.clear();
  for (const place of tally.containers) places.set(place.id, place);
  draw();
  start.update(tally);
  return undefined;
}

function showTrouble(problem) {
  byId('loading')?.replaceChildren(problemBox(problem), problem.unreachable ? 'Trying again by itself.' : '');
}

function say(words, ...more) {
  byId('said').replaceChildren(h('p', { class: 'done' }, h('span', {}, words), more));
}

/** An entry is in: the sowing as the service has it now takes the place of the old one. */
function arrived(entry, answer) {
  arrivals += 1;
  if (!tally || !answer?.entry) return;
  const id = answer.entry.sowing;
  tally.sowings = answer.sowing
    ? tally.sowings.map((one) => (one.id === id ? answer.sowing : one))
    : tally.sowings.filter((one) => one.id !== id);
  draw();
  refreshOpenRecord(id);
  heatOrDays.refresh();
}

/**
 * Keeps an entry, sends it if that goes at once; the words of a refusal come back. A picture is too large to be kept
 * here: it goes at once or not at all.
 */
async function write(entry, picture = null) {
  const writing = unsent.add(entry);
  const result = await Promise.race([
    writing,
    new Promise((wake) => setTimeout(wake, PATIENCE_MS, { state: 'waiting' })),
  ]);
  if (result.state === 'refused') {
    unsent.discard(result.key);
    return result.message;
  }
  const written = result.state === 'sent';
  const lost =
    picture &&
    (written && result.answer ? await keepPicture(result.answer.entry.id, picture) : 'the entry is not there yet');
  const pictureWords = lost
    ? ` The picture was not kept, since ${lost.replace(/\.$/, '')}: add it later, in the record.`
    : '';
  if (!written) say(`Kept on this device. It is sent as soon as the service answers.${pictureWords}`);
  else say(`Written down. ${entry.what}.${pictureWords}`, entry.kind !== 'withdrawal' && undoButton(result.answer));
  if (picture && !lost) refreshOpenRecord(result.answer.entry.sowing);
  return null;
}

const writeNow = (one) => write({ writtenAt: new Date(now()).toISOString(), ...one });

function undoButton(answer) {
  const sowing = answer?.sowing;
  return sowing && h('button', { type: 'button', on: { click: () => undoLast(sowing) } }, 'Undo');
}

async function undoLast(sowing) {
  try {
    const entries = await api.entries(sowing.id);
    const last = entries.find((entry) => entry.id === sowing.lastEntry);
    if (last) confirmWithdrawal(last, { names, write: writeNow });
  } catch (problem) {
    byId('said').replaceChildren(problemBox(problem));
  }
}

function draw() {
  drawUnsent();
  if (!tally) return;
  byId('sowings-part').hidden = tally.sowings.length === 0;
  reconcile(byId('sowings'), [...tally.sowings].reverse(), (one) => one.id, makeSowing, updateSowing);
  drawDue();
  comparison.update(tally.sowings);
  sources.update(tally);
  heatOrDays.update(tally);
}

/** In the other unit of temperature. */
function redraw() {
  draw();
  for (const card of byId('sowings').children) refreshOpenRecord(Number(card.dataset.sowing));
  heatOrDays.refresh();
}

function drawUnsent() {
  const list = unsent.list();
  const part = byId('unsent');
  part.hidden = list.length === 0;
  const waiting = list.filter((entry) => !entry.refused);
  const items = list.map((entry) =>
    h(
      'li',
      { class: entry.refused ? 'refused' : '' },
      `${f.stamp(entry.writtenAt, now())}. ${entry.what}`,
      entry.refused && `: refused, since ${entry.refused}`,
      ' ',
      h('button', { type: 'button', class: 'plain', on: { click: () => unsent.discard(entry.key) } }, 'Discard'),
    ),
  );
  part.replaceChildren(
    h(
      'strong',
      {},
      waiting.length > 0
        ? `${f.count(waiting.length, 'entry', 'entries')} waiting to be sent`
        : 'Not taken by the service',
    ),
    h('ul', {}, items),
  );
}

function drawDue() {
  const due = tally.sowings.flatMap((sowing) =>
    sowing.groups.filter((group) => group.nextCheck).map((group) => ({ sowing, group })),
  );
  due.sort((a, b) => Date.parse(a.group.nextCheck.at) - Date.parse(b.group.nextCheck.at));
  byId('due-part').hidden = due.length === 0;
  reconcile(
    byId('due'),
    due.slice(0, DUE_SHOWN),
    (one) => one.group.id,
    ({ group }) =>
      h(
        'li',
        { class: 'with-button' },
        h('span'),
        h(
          'button',
          {
            type: 'button',
            class: 'main',
            'aria-label': `Check group ${group.id}`,
            on: { click: () => openCheck(group.id) },
          },
          'Check',
        ),
      ),
    (item, { sowing, group }) =>
      setText(
        item.firstElementChild,
        `${names(group.container)}: ${sowing.speciesName}, group ${group.id}, ${dueWords(group.nextCheck.at, now())}`,
      ),
  );
}

function makeSowing(sowing) {
  const place = h('div', { class: 'record-place' });
  const details = h(
    'details',
    { on: { toggle: () => details.open && fillRecord(sowing.id, place) } },
    h('summary', {}, 'What next, curve, record'),
    place,
  );
  return h(
    'article',
    { class: 'sowing', data: { sowing: sowing.id } },
    h('header', {}, h('h3'), h('p', { class: 'about quiet' })),
    h('p', { class: 'fraction' }),
    h('p', { class: 'tally' }),
    h('div', { class: 'groups' }),
    details,
    h(
      'div',
      { class: 'actions' },
      h(
        'button',
        {
          type: 'button',
          class: 'undo',
          on: { click: () => undoLast(tally.sowings.find((one) => one.id === sowing.id)) },
        },
        'Undo the last entry',
      ),
    ),
  );
}

const waitingFor = (group) => unsent.list().filter((entry) => entry.group === group.id && !entry.refused);

function updateSowing(card, sowing) {
  const groups = sowing.groups.map((group) => withUnsent(group, unsent.list()));
  const sum = (key) => groups.reduce((total, group) => total + group[key], 0);
  const newly = sowing.groups
    .flatMap(waitingFor)
    .filter((one) => one.kind === 'check')
    .reduce((total, one) => total + (one.body.germinated ?? 0), 0);
  const germinated = sowing.everGerminated + newly;
  setText(card.querySelector('h3'), nameOf(sowing));
  setText(
    card.querySelector('.about'),
    `Sown ${f.moment(sowing.at, now())}, day ${Math.floor((now() - Date.parse(sowing.at)) / 86_400_000)}`,
  );
  setText(
    card.querySelector('.fraction'),
    germinatedWords({ germinated, sown: sowing.sown, notLookedAt: sum('notLookedAt') }),
  );
  const alive = sowing.alive + sum('potted') - sowing.potted;
  setText(
    card.querySelector('.tally'),
    `Now: ${f.number(sum('ungerminated'))} ungerminated, ${f.number(sum('germinated'))} germinated, ` +
      `${f.number(sum('potted'))} potted on (${f.number(alive)} alive), ${f.number(sum('culled'))} culled`,
  );
  const shown = groups.filter(
    (group) => group.ungerminated + group.germinated > 0 || group.potted > 0 || waitingFor(group).length > 0,
  );
  reconcile(card.querySelector('.groups'), shown, (group) => group.id, makeGroup, updateGroup);
}

function makeGroup(group) {
  const button = (word, act, style) =>
    h(
      'button',
      {
        type: 'button',
        class: style,
        data: { act: word.toLowerCase() },
        'aria-label': `${word}, group ${group.id}`,
        on: { click: () => act(group.id) },
      },
      word,
    );
  return h(
    'div',
    { class: 'seed-group', data: { group: group.id } },
    h('p', {}, h('strong', { class: 'where' }), ' ', h('span', { class: 'counts' })),
    h('p', { class: 'quiet due' }),
    h('p', { class: 'waits' }),
    h(
      'div',
      { class: 'actions' },
      button('Check', openCheck, 'main'),
      button('Move', openMove),
      button('Seedlings', openSurvival),
    ),
  );
}

function updateGroup(element, group) {
  const living = group.ungerminated + group.germinated;
  const waits = waitingFor(group).length;
  setText(element.querySelector('.where'), living > 0 ? names(group.container) : 'Potted on');
  setText(
    element.querySelector('.counts'),
    living > 0
      ? `group ${group.id}: ${f.number(group.ungerminated)} ungerminated, ${f.number(group.germinated)} germinated`
      : `group ${group.id}: ${f.count(group.potted, 'seedling')}`,
  );
  setText(
    element.querySelector('.due'),
    group.nextCheck && living > 0 ? `${sentence(dueWords(group.nextCheck.at, now()))}: ${group.nextCheck.why}.` : '',
  );
  setText(
    element.querySelector('.waits'),
    waits > 0 ? `${f.count(waits, 'entry', 'entries')} waiting to be sent.` : '',
  );
  element.querySelector('[data-act=check]').hidden = living === 0;
  element.querySelector('[data-act=move]').hidden = living === 0;
  element.querySelector('[data-act=seedlings]').hidden = group.potted === 0;
}

const sentence = (words) => words[0].toUpperCase() + words.slice(1);

function find(id) {
  const sowing = tally.sowings.find((one) => one.groups.some((group) => group.id === id));
  return {
    sowing,
    group: withUnsent(
      sowing.groups.find((group) => group.id === id),
      unsent.list(),
    ),
  };
}

/** The time of the press, by the service's clock, so that what is sent later still counts for then. */
const entry = (kind, group, what, path, body) => ({
  kind,
  group,
  what,
  path,
  writtenAt: new Date(now()).toISOString(),
  body: { at: new Date(now()).toISOString(), ...body },
});
const pathOf = (group, what) => `/api/groups/${encodeURIComponent(group)}/${what}`;
const given = (at) => (at === null ? {} : { at });

function openCheck(id) {
  const { sowing, group } = find(id);
  const fields = checkFields(group);
  const remark = remarkField();
  const picture = pictureField();
  const when = whenField();
  openSheet({
    title: names(group.container),
    lead: `${sowing.speciesName}, group ${id}: ${f.number(group.ungerminated)} ungerminated, ${f.number(group.germinated)} germinated in there.`,
    content: [
      ...fields.elements,
      h(
        'details',
        {},
        h('summary', {}, 'Roots, remark, picture, another time'),
        fields.roots,
        remark.element,
        picture.element,
        when.element,
      ),
    ],
    save: async () => {
      const check = fields.read();
      const taken = await picture.read();
      return write(
        entry('check', id, `Group ${id}: ${checkWords(check)}`, pathOf(id, 'checks'), {
          ...check,
          remark: remark.read(),
          ...given(when.read()),
        }),
        taken,
      );
    },
  });
}

function openMove(id) {
  const { sowing, group } = find(id);
  const to = h(
    'select',
    { id: 'move-to', name: 'to', on: { change: () => joins() } },
    tally.containers.map((place) =>
      h('option', { value: place.id, selected: place.id !== group.container }, place.name),
    ),
  );
  const join = h('select', { id: 'move-join', name: 'joinTo' });
  const joinField = h('div', { class: 'field' }, h('label', { for: 'move-join' }, 'There'), join);
  const ungerminated = counter('Ungerminated', {
    name: 'ungerminated',
    value: group.ungerminated,
    most: () => group.ungerminated,
  });
  const germinated = counter('Germinated', {
    name: 'germinated',
    value: group.germinated,
    most: () => group.germinated,
  });
  const when = whenField();
  const joins = () => {
    const others = sowing.groups.filter(
      (one) => one.id !== id && one.container === to.value && one.ungerminated + one.germinated > 0,
    );
    setOptions(join, [
      { value: '', text: 'as a group of their own' },
      ...others.map((one) => ({ value: one.id, text: `together with group ${one.id}` })),
    ]);
    joinField.hidden = others.length === 0;
  };
  joins();
  openSheet({
    title: 'Move seeds',
    lead: `Group ${id}, now in ${names(group.container)}.`,
    submit: 'Move them',
    content: [
      h('div', { class: 'field' }, h('label', { for: 'move-to' }, 'To'), to),
      joinField,
      ungerminated.element,
      germinated.element,
      h('details', {}, h('summary', {}, 'Another time'), when.element),
    ],
    save: () => {
      const part = { ungerminated: ungerminated.read(), germinated: germinated.read() };
      const all = part.ungerminated === group.ungerminated && part.germinated === group.germinated;
      const body = { to: to.value, ...(all ? {} : part), joinTo: join.value || null, ...given(when.read()) };
      return write(
        entry(
          'move',
          id,
          `Group ${id}: ${all ? 'all seeds' : f.count(part.ungerminated + part.germinated, 'seed')} moved to ${names(to.value)}`,
          pathOf(id, 'moves'),
          body,
        ),
      );
    },
  });
}

function openSurvival(id) {
  const { group } = find(id);
  const alive = counter('Alive', { name: 'alive', value: group.alive, most: () => group.alive });
  openSheet({
    title: 'Count seedlings',
    lead: `Group ${id}: ${f.count(group.potted, 'seedling')} potted on.`,
    content: [alive.element],
    save: () =>
      write(
        entry('survival', id, `Group ${id}: ${f.number(alive.read())} seedlings alive`, pathOf(id, 'survival'), {
          alive: alive.read(),
        }),
      ),
  });
}

async function fillRecord(id, place) {
  const sowing = tally.sowings.find((one) => one.id === id);
  if (!place.firstChild) place.replaceChildren(h('p', { class: 'loading' }, 'Working it out …'));
  try {
    await showRecord(place, sowing, {
      names,
      species: tally.species.find((one) => one.id === sowing.species),
      write: writeNow,
      refresh: () => refreshOpenRecord(id),
    });
  } catch (problem) {
    place.replaceChildren(problemBox(problem));
    announce(problem.message);
  }
}

function refreshOpenRecord(id) {
  const details = byId('sowings').querySelector(`[data-sowing="${id}"] details[open]`);
  if (details && tally.sowings.some((one) => one.id === id)) fillRecord(id, details.querySelector('.record-place'));
}
