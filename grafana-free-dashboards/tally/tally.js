// Runs the Tally: counting, moving and following seeds. Entries that cannot be sent wait in the browser.

import { api } from '../shared/api.js';
import { announce, byId, h, problemBox, reconcile } from '../shared/dom.js';
import { startPage, untilItWorks } from '../shared/page.js';
import { showProblem } from '../shared/trouble.js';
import { makeComparison } from './compare.js';
import { drawDue, dueChoice } from './due-list.js';
import { makeGroupSheets } from './group-sheets.js';
import { makeHeatOrDays } from './heat-or-days.js';
import { openNames } from './names-sheet.js';
import { showRecord } from './record.js';
import { makeRound } from './round.js';
import { openScanned } from './scanned.js';
import { makeSources } from './sources.js';
import { makeSowingCards, nameOf } from './sowing-cards.js';
import { makeStart } from './start.js';
import { drawUnsent } from './unsent-list.js';
import { browserStorage, makeUnsent } from './unsent.js';
import { makeWriting, say } from './writing.js';
import { texts } from './texts.js';

const LOOK_AGAIN_MS = 60_000;

let tally = null;
let arrivals = 0;
const places = new Map();
const unsent = makeUnsent({
  storage: browserStorage,
  send: (entry) => api.write(entry.path, entry.body),
  changed: () => draw(),
  sent: (entry, answer) => arrived(entry, answer),
});
const names = (id) => places.get(id)?.name ?? id;
const sowingOf = (id) => tally.sowings.find((one) => one.id === id);
const lotOf = (id) => tally.lots.find((one) => one.id === sowingOf(id).lot);
const roomOf = (id) => places.get(id)?.room ?? null;
const start = makeStart({
  host: byId('start'),
  done: async (words, next) => {
    // Loads first: what was added can then be chosen everywhere as soon as the page says that it is there.
    await load().catch(showTrouble);
    say(words);
    start.show(next);
  },
});
const { write, writeNow, undoLast } = makeWriting({ unsent, names, refresh: (id) => refreshOpenRecord(id) });
const sheets = makeGroupSheets({ tally: () => tally, waiting: unsent.list, names, write });
const cards = makeSowingCards({
  waiting: unsent.list,
  names,
  sheets,
  unfolded: (id, place) => fillRecord(id, place),
  undo: (id) => undoLast(sowingOf(id)),
  rename: (id) => openNames(sowingOf(id), lotOf(id), { names, write, lotChanged: () => load().catch(showTrouble) }),
  lotOf,
});
const round = makeRound({ tally: () => tally, roomOf, names, choice: dueChoice, openCheck: sheets.openCheck });
const comparison = makeComparison(byId('compare-part'), nameOf, names);
const sources = makeSources(byId('sources-part'));
const heatOrDays = makeHeatOrDays(byId('heat-or-days-part'));

startPage({ current: '/tally.html', reload: () => unsent.flush().then(load).catch(showTrouble), redraw });
begin();

async function begin() {
  drawUnsent(unsent);
  try {
    await untilItWorks(load, showTrouble);
  } catch (problem) {
    showTrouble(problem);
    return;
  }
  byId('loading').remove();
  for (const part of ['start', 'export-part']) byId(part).hidden = false;
  start.next(tally);
  openScanned({ tally, openCheck: (id) => sheets.openCheck(id), goOn: round.scanned });
  unsent.keepSending();
  setInterval(() => load().catch(() => {}), LOOK_AGAIN_MS);
}

/** Loads the tally. If an entry arrived meanwhile, the answer may be outdated and is asked for again. */
async function load() {
  const before = arrivals;
  const loaded = await api.tally();
  if (before !== arrivals) return load();
  tally = loaded;
  places.clear();
  for (const place of tally.containers) places.set(place.id, place);
  draw();
  start.update(tally);
  return undefined;
}

function showTrouble(problem) {
  showProblem(byId('loading'), problem);
}

/** The service has taken an entry: its answer replaces the sowing. */
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

function draw() {
  drawUnsent(unsent);
  if (!tally) return;
  byId('sowings-part').hidden = tally.sowings.length === 0;
  reconcile(byId('sowings'), [...tally.sowings].reverse(), (one) => one.id, cards.makeSowing, cards.updateSowing);
  drawDue(tally.sowings, { names, roomOf, openCheck: sheets.openCheck, chosen: draw });
  round.draw();
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

async function fillRecord(id, place) {
  const sowing = tally.sowings.find((one) => one.id === id);
  if (!place.firstChild) place.replaceChildren(h('p', { class: 'loading' }, texts.workingItOut));
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
