// Runs the page Charts: any containers over one stretch of time, one chart for each quantity.

import { loadCharts } from '../chart-parts/load.js';
import { makeRange } from '../chart-parts/range.js';
import { rangeWords } from '../chart-parts/range-words.js';
import { makeStretch } from '../chart-parts/stretch.js';
import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';
import { byId, problemBox, setText } from '../shared/dom.js';
import { startPage, untilItWorks } from '../shared/page.js';
import { showProblem } from '../shared/trouble.js';
import { drawChoice, firstChoice, fromAddress, toAddress } from './choice.js';
import { makeLines } from './lines.js';

const LOOK_AGAIN_MS = 15_000;

let choice = fromAddress();
let containers = [];
let setup = null;
let range = null;
let stretch = null;
let panels = null;
let pointed = null;

startPage({
  current: '/charts.html',
  reload: () => panels && load(),
  redraw: () => panels && remake(),
});
begin();

async function begin() {
  try {
    [setup, containers] = await untilItWorks(() => Promise.all([api.setup(), api.containers()]), showTrouble);
  } catch (problem) {
    showTrouble(problem);
    return;
  }
  byId('loading').remove();
  byId('content').hidden = false;
  byId('print').addEventListener('click', () => print());
  byId('choice').addEventListener('submit', (event) => event.preventDefault());
  if (chosen().length === 0) choice = { ...choice, containers: firstChoice(containers) };
  range = makeRange(byId('range'), { begin: begun, changed: changeRange });
  stretch = makeStretch({ range, ask, draw });
  take(choice);
  setInterval(stretch.follow, LOOK_AGAIN_MS);
}

const chosen = () =>
  choice.containers.map((id) => containers.find((one) => one.id === id)).filter((one) => one !== undefined);

/** When the readings of the chosen begin. */
const begun = () => Math.min(now(), ...chosen().map((one) => Date.parse(one.heat?.from ?? one.createdAt)));

function take(next) {
  choice = next;
  toAddress(choice);
  drawChoice(containers, choice, take);
  remake();
}

/** Makes the charts anew: for other containers, quantities or units. */
function remake() {
  panels?.destroy();
  panels = makeLines(chosen(), choice.quantities, {
    onZoom: (from, to) => range.zoom(from, to),
    onReset: () => range.reset(),
    lead(at, { from, to }) {
      pointed = at;
      byId('range').scrollIntoView();
      range.zoom(from, to);
    },
  });
  byId('marked-part').hidden = chosen().length === 0;
  load();
}

const load = () => stretch.load().catch(showTrouble);

/** Draws the new stretch from the samples at hand, until its own come. */
function changeRange() {
  panels.zoom(range.current());
  stretch.loadWhenPainted().catch(showTrouble);
}

const ask = (span, width) =>
  loadCharts(
    chosen().map((one) => one.id),
    span,
    width,
  );

function draw(answers, span) {
  byId('trouble').replaceChildren();
  panels.show(answers, span, setup.timeZone, range.follows());
  setText(byId('range-words'), rangeWords(span, range.follows()));
  if (pointed !== null) panels.pointAt(pointed);
  pointed = null;
}

function showTrouble(problem) {
  if (byId('loading')) showProblem(byId('loading'), problem);
  else byId('trouble').replaceChildren(problemBox(problem));
}
