// The Alerts page: what is open, what was put aside, what was, how the alerts do, and what was sent.

import { api } from '../shared/api.js';
import { byId, h, problemBox, setOptions, setText, whileBusy } from '../shared/dom.js';
import { announceChange } from '../shared/attention.js';
import { now } from '../shared/clock.js';
import { drawFigures, drawNotices, drawNotifiers } from './figures.js';
import { drawHistory, drawOpen, historyChoices, narrowed } from './lists.js';
import { tellingWords } from './words.js';
import { startPage, untilItWorks } from '../shared/page.js';
import { permission, setTellsHere, tellsHere } from '../shared/tell-here.js';
import { isOpen } from '../shared/words.js';
import { setWho, who } from '../shared/who.js';

const TABS = { open: 'Open', shelved: 'Shelved', history: 'History', figures: 'Figures', notices: 'Notices' };
const LOOK_AGAIN_MS = 15_000;
const TOGETHER_MS = 300;
const DAY_MS = 86_400_000;

const alerts = new Map();
let past = [];
let figures = null;
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
makeTabs();
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
  setInterval(draw, LOOK_AGAIN_MS);
}

async function load() {
  await loadOpen();
  await loadTab();
}

async function loadOpen() {
  const [open, shelved] = await Promise.all([api.alerts('open'), api.alerts('shelved')]);
  alerts.clear();
  for (const alert of [...open, ...shelved]) alerts.set(alert.id, alert);
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
  const { open, shelved } = drawOpen(byId('open-list'), byId('shelved-list'), [...alerts.values()], takeAlert);
  byId('no-open').hidden = open > 0;
  byId('no-shelved').hidden = shelved > 0;
  setText(byId('tab-open'), open > 0 ? `Open (${open})` : TABS.open);
  setText(byId('tab-shelved'), shelved > 0 ? `Shelved (${shelved})` : TABS.shelved);
  document.title = open > 0 ? `(${open}) Alerts · Tepidarium` : 'Alerts · Tepidarium';
}

function drawPast() {
  const choices = historyChoices(past);
  const picks = Object.fromEntries(Object.keys(choices).map((key) => [key, byId(`past-${key}`)]));
  for (const [key, pick] of Object.entries(picks)) setOptions(pick, choices[key]);
  byId('past-filter').hidden = past.length < 2;
  byId('no-past').hidden = past.length > 0;
  const shown = narrowed(past, { container: picks.container.value, kind: picks.kind.value });
  drawHistory(byId('past'), shown);
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
/** Many events in one breath make one question. */
function loadTabSoon() {
  loading ??= setTimeout(() => {
    loading = null;
    // Figures replay stored readings: too dear to follow every event.
    if (tab() !== 'figures') loadTab().catch(() => {});
  }, TOGETHER_MS);
}

const tab = () => (location.hash.slice(1) in TABS ? location.hash.slice(1) : 'open');

function makeTabs() {
  byId('tabs').append(
    h(
      'ul',
      {},
      Object.entries(TABS).map(([key, title]) => h('li', {}, h('a', { id: `tab-${key}`, href: `#${key}` }, title))),
    ),
  );
  globalThis.addEventListener('hashchange', showTab);
}

function showTab() {
  for (const key of Object.keys(TABS)) {
    byId(`part-${key}`).hidden = key !== tab();
    if (key === tab()) byId(`tab-${key}`).setAttribute('aria-current', 'true');
    else byId(`tab-${key}`).removeAttribute('aria-current');
  }
  loadTab().catch(showTrouble);
}

function makeTelling() {
  const button = byId('tell');
  const show = () => {
    setText(button, tellsHere() ? 'Keep quiet on this device' : 'Tell me on this device');
    setText(byId('telling'), tellingWords(tellsHere(), permission()));
  };
  button.addEventListener('click', () =>
    whileBusy(button, null, async () => {
      const wanted = setTellsHere(!tellsHere());
      show();
      await wanted;
      show();
    }),
  );
  show();
}

function makeWho() {
  byId('who').value = who() ?? '';
  byId('who').addEventListener('change', () => setWho(byId('who').value));
}

function showTrouble(problem) {
  const box = [problemBox(problem), problem.unreachable ? 'Trying again by itself.' : ''];
  (byId('loading') ?? byId('trouble')).replaceChildren(...box);
}
