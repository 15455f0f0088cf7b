// Runs the Alerts page: open, shelved and past alerts, figures about the alerts, and notices.

import { isOpen } from '../shared/alert-words.js';
import { api } from '../shared/api.js';
import { announceChange, openAlerts } from '../shared/attention.js';
import { now } from '../shared/clock.js';
import { byId, setOptions, setText } from '../shared/dom.js';
import { FollowedMap } from '../shared/maps.js';
import { startPage, untilItWorks } from '../shared/page.js';
import { showProblem } from '../shared/trouble.js';
import { drawFigures, drawNotices, drawNotifiers } from './figures.js';
import { drawHistory, historyChoices, narrowed } from './history.js';
import { drawOpen, sayNoneOpen } from './lists.js';
import { TABS, makeTabs, showTab, tab } from './tabs.js';
import { makeTold } from './told.js';
import { makeTelling, makeWho } from './telling.js';
import { texts } from './texts.js';

const LOOK_AGAIN_MS = 15_000;
const TOGETHER_MS = 300;
const DAY_MS = 86_400_000;

const alerts = new FollowedMap((one) => one.id);
let heatSources = new Map();
let past = [];
let figures = null;
const told = makeTold();
let ready = false;

startPage({
  current: '/alerts.html',
  reload: () => ready && load().catch(showTrouble),
  redraw: () => {
    draw();
    drawPast();
    if (figures) drawFigures(byId('figures-place'), figures);
  },
  handlers: {
    alert: takeAlert,
    notice: loadTabSoon,
  },
});
makeTabs(() => loadTab().catch(showTrouble));
makeTelling();
makeWho();
for (const id of ['past-container', 'past-kind']) byId(id).addEventListener('change', drawPast);
byId('figures-days').addEventListener('change', () => loadTab().catch(showTrouble));
begin();

async function begin() {
  try {
    await untilItWorks(loadOpen, showTrouble);
  } catch (problem) {
    showTrouble(problem);
    return;
  }
  ready = true;
  byId('loading').remove();
  showTab();
  loadTab().catch(showTrouble);
  setInterval(draw, LOOK_AGAIN_MS);
}

async function load() {
  await loadOpen();
  await loadTab();
}

async function loadOpen() {
  const [containers] = await Promise.all([api.containers(), alerts.load(openAlerts), told.load()]);
  heatSources = new Map(containers.map((one) => [one.id, one.heatSource]));
  draw();
  byId('trouble').replaceChildren();
}

function takeAlert(alert) {
  announceChange(alerts.get(alert.id), alert);
  if (isOpen(alert)) alerts.set(alert.id, alert);
  else alerts.delete(alert.id);
  draw();
  loadTabSoon();
}

function draw() {
  const { open, shelved } = drawOpen(byId('open-list'), byId('shelved-list'), {
    alerts: [...alerts.values()],
    toldOf: (id) => told.of(id, alerts.get(id)),
    heatSourceOf: (id) => heatSources.get(id) ?? null,
    changed: takeAlert,
  });
  byId('no-open').hidden = open > 0;
  sayNoneOpen(byId('no-open'), heatSources.size);
  byId('no-shelved').hidden = shelved > 0;
  setText(byId('tab-open'), open > 0 ? texts.open(open) : TABS.open);
  setText(byId('tab-shelved'), shelved > 0 ? texts.paused(shelved) : TABS.shelved);
  document.title = open > 0 ? texts.alertsTepidarium(open) : texts.alertsTepidarium2;
}

function drawPast() {
  const choices = historyChoices(past);
  const picks = Object.fromEntries(Object.keys(choices).map((key) => [key, byId(`past-${key}`)]));
  for (const [key, pick] of Object.entries(picks)) setOptions(pick, choices[key]);
  byId('past-filter').hidden = past.length < 2;
  byId('no-past').hidden = past.length > 0;
  const shown = narrowed(past, { container: picks.container.value, kind: picks.kind.value });
  drawHistory(byId('past'), shown, (id) => told.of(id, alerts.get(id)));
  byId('none-such').hidden = past.length === 0 || shown.length > 0;
}

const LOADERS = {
  history: async () => {
    past = await api.alerts('history');
    drawPast();
  },
  figures: async () => {
    figures = await api.alertPerformance({ from: now() - Number(byId('figures-days').value) * DAY_MS, to: now() });
    drawFigures(byId('figures-place'), figures);
  },
  notices: async () => {
    const [notices, notifiers] = await Promise.all([api.notices(), api.notifiers()]);
    byId('no-notices').hidden = notices.length > 0;
    drawNotifiers(byId('notifiers'), notifiers);
    drawNotices(byId('notices-list'), notices);
  },
};

async function loadTab() {
  await LOADERS[tab()]?.();
}

let loading = null;
/** Combines events within 300 ms into one request. */
function loadTabSoon() {
  loading ??= setTimeout(() => {
    loading = null;
    // The service computes the figures from stored readings, which takes too long for every event.
    if (tab() !== 'figures') loadTab().catch(() => {});
    told.load().then(draw, () => {});
  }, TOGETHER_MS);
}

function showTrouble(problem) {
  showProblem(byId('loading') ?? byId('trouble'), problem);
}
