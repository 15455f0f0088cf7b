// Compares containers or heat sources, and tries a place.

import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';
import { byId, h, problemBox } from '../shared/dom.js';
import { makeContainer, showNext } from '../shared/next-step.js';
import { startPage, untilItWorks } from '../shared/page.js';
import { showProblem } from '../shared/trouble.js';
import { drawChoice, firstChoice, fromAddress, toAddress } from './choice.js';
import { comparisonParts } from './comparison.js';
import { drawProfile } from './profile.js';
import { drawTrial, offerTrial } from './trial.js';
import { texts } from './texts.js';

const DAY_MS = 86_400_000;
const MOST = 8;
let containers = [];
let choice = fromAddress();
let answer = null;
let newestAsk = 0;
let loading = null;

startPage({ current: '/heat-bench.html', reload: () => load().catch(showTrouble), redraw });
untilItWorks(load, showTrouble).catch(showTrouble);

/** Page and live stream both call this at the start; they share one request. */
function load() {
  loading ??= fetchAll().finally(() => {
    loading = null;
  });
  return loading;
}

async function fetchAll() {
  containers = await api.containers();
  byId('loading')?.remove();
  byId('content').hidden = false;
  if (choice.keys.length === 0) choice = { ...choice, ...firstChoice(containers) };
  drawChoice(containers, choice, { choose, chooseSpan });
  offerTrial(containers);
  await compare();
}

function choose(by, key, wanted) {
  const others = choice.by === by ? choice.keys.filter((one) => one !== key) : [];
  choice = { ...choice, by, keys: wanted ? [...others, key] : others };
  settle();
}

function chooseSpan(span) {
  choice = { ...choice, span };
  settle();
}

function settle() {
  toAddress(choice);
  drawChoice(containers, choice, { choose, chooseSpan });
  compare().catch(showTrouble);
}

async function compare() {
  const ask = ++newestAsk;
  const keys = choice.keys;
  const enough = keys.length >= 2 && keys.length <= MOST;
  const few = containers.length < 2;
  showNext(
    byId('choice-help'),
    enough ? '' : few ? texts.twoContainersAreNeededFor : texts.chooseTwoToOfOne(MOST),
    few ? makeContainer() : null,
  );
  if (!enough) {
    answer = null;
    drawComparison();
    return;
  }
  byId('comparison').setAttribute('aria-busy', 'true');
  if (answer === null) byId('comparison').replaceChildren(h('p', { class: 'waiting' }, texts.comparing));
  try {
    const from = choice.span.days === null ? undefined : now() - choice.span.days * DAY_MS;
    const next = await api.compareHeat({ [choice.by]: keys, from });
    if (ask !== newestAsk) return;
    answer = next;
    drawComparison();
  } catch (problem) {
    if (ask !== newestAsk) return;
    answer = null;
    drawComparison();
    byId('comparison').replaceChildren(problemBox(problem));
  } finally {
    if (ask === newestAsk) byId('comparison').removeAttribute('aria-busy');
  }
}

function drawComparison() {
  byId('profile-part').hidden = answer === null;
  byId('comparison').replaceChildren(...(answer === null ? [] : comparisonParts(answer, containers)));
  if (answer !== null) drawProfile(answer);
}

byId('choice').addEventListener('submit', (event) => event.preventDefault());

function redraw() {
  if (answer) drawComparison();
  drawTrial();
}

function showTrouble(problem) {
  showProblem(byId('loading') ?? byId('comparison'), problem);
}
