// The report of a season: shown, printed, kept. The span, or the kept season, stands in the address.

import { api } from '../shared/api.js';
import { announce, byId, h, whileBusy } from '../shared/dom.js';
import { startPage, untilItWorks } from '../shared/page.js';
import * as t from '../shared/time-format.js';
import { showProblem } from '../shared/trouble.js';
import { drawKept } from './kept.js';
import { reportParts } from './report.js';
import * as words from './words.js';
import { pageZone } from '../shared/zone.js';
import { texts } from './texts.js';

const zone = pageZone;
let chosen = fromAddress();
let shown = null;
let keptSeasons = [];
let loading = null;

startPage({ current: '/tally.html', reload: () => load().catch(showTrouble), redraw: () => shown && draw() });
untilItWorks(load, showTrouble).catch(showTrouble);

function fromAddress() {
  const query = new URLSearchParams(location.search);
  return { season: query.get('season'), from: query.get('from'), to: query.get('to') };
}

function choose(next) {
  chosen = { season: null, from: null, to: null, ...next };
  const query = new URLSearchParams(Object.entries(chosen).filter(([, value]) => value));
  history.pushState(null, '', query.size > 0 ? `?${query}` : location.pathname);
  return load();
}

addEventListener('popstate', () => {
  chosen = fromAddress();
  load().catch(showTrouble);
});

/** Page and live stream both call this at the start; they share one request. */
function load() {
  const wanted = chosen;
  if (loading?.wanted === wanted) return loading.work;
  const work = fetchAll(wanted).finally(() => {
    if (loading?.work === work) loading = null;
  });
  loading = { wanted, work };
  return work;
}

async function fetchAll(wanted) {
  byId('report').setAttribute('aria-busy', 'true');
  try {
    const [answer, kept] = await Promise.all([ask(wanted), api.seasons()]);
    if (wanted !== chosen) return;
    shown = answer;
    keptSeasons = kept;
    byId('loading')?.remove();
    draw();
  } finally {
    byId('report').removeAttribute('aria-busy');
  }
}

async function ask({ season, from, to }) {
  if (season) return api.season(season);
  const report = await api.seasonReport({
    from: from ? t.startOfDay(from, zone) : null,
    to: to ? t.startOfDay(t.nextDay(to), zone) : null,
  });
  return { id: null, name: null, keptAt: null, remark: null, report };
}

const dayKey = (ms) =>
  new Intl.DateTimeFormat('en-CA', { year: 'numeric', month: '2-digit', day: '2-digit', timeZone: zone }).format(
    new Date(ms),
  );

function draw() {
  const { report } = shown;
  byId('from').value = dayKey(Date.parse(report.from));
  byId('to').value = dayKey(Date.parse(report.to) - 1);
  byId('print').disabled = false;
  byId('keep-part').hidden = shown.id !== null;
  document.title = `${shown.name ?? texts.season(words.spanWords(report, zone))} · Tepidarium`;
  byId('report').replaceChildren(...reportParts(shown));
  drawKept(keptSeasons, {
    shownId: shown.id,
    choose: (season) => choose({ season: String(season.id) }).catch(showTrouble),
    forget,
  });
  announce(byId('report-title').textContent);
}

async function forget(season) {
  await api.removeSeason(season.id);
  say(texts.removed(season.name));
  await (shown.id === season.id ? choose({}) : load());
}

function say(text) {
  byId('said').replaceChildren(h('p', { class: 'done' }, text));
}

byId('print').addEventListener('click', () => window.print());
byId('choice').addEventListener('submit', (event) => {
  event.preventDefault();
  choose({ from: byId('from').value, to: byId('to').value }).catch(showTrouble);
});
byId('keep').addEventListener('submit', (event) => {
  event.preventDefault();
  whileBusy(event.target.querySelector('button'), byId('said'), keep);
});

async function keep() {
  const kept = await api.keepSeason({
    name: byId('keep-name').value,
    from: shown.report.from,
    to: shown.report.to,
    remark: byId('keep-remark').value || null,
  });
  byId('keep').reset();
  say(texts.kept(kept.name));
  await choose({ season: String(kept.id) });
}

function showTrouble(problem) {
  shown = null;
  byId('print').disabled = true;
  byId('keep-part').hidden = true;
  announce(problem.message);
  showProblem(byId('loading') ?? byId('report'), problem);
}
