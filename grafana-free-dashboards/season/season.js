// The report of a season: shown, printed, kept. The span, or the kept season, stands in the address.

import { api } from '../shared/api.js';
import { announce, byId, h, problemBox, reconcile, setText, table, whileBusy } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { startPage, untilItWorks } from '../shared/page.js';
import * as words from './words.js';

const zone = f.browserZone();
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

/** The page and the live stream both ask at the start; one answer serves both. */
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
    from: from ? f.startOfDay(from, zone) : null,
    to: to ? f.startOfDay(f.nextDay(to), zone) : null,
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
  document.title = `${shown.name ?? `Season ${words.spanWords(report, zone)}`} · Tepidarium`;
  byId('report').replaceChildren(
    ...head(),
    ...lessons(report),
    ...sowings(report),
    ...containers(report),
    ...comparisons(report),
    ...earlier(report),
    h(
      'section',
      { class: 'small-print' },
      words.smallPrint(report).map((line) => h('p', {}, line)),
    ),
  );
  drawKept();
  announce(byId('report-title').textContent);
}

function head() {
  const { report, name, keptAt, remark } = shown;
  const span = words.spanWords(report, zone);
  return [
    h('h2', { id: 'report-title', class: 'report-title' }, name ? `${name}, ${span}` : `Season ${span}`),
    keptAt && h('p', { class: 'quiet' }, `Kept on ${words.dateOf(keptAt, zone)}; the figures are those of then.`),
    remark && h('p', {}, remark),
    ...words.headlines(report).map((line) => h('p', { class: 'headline' }, line)),
  ].filter(Boolean);
}

function lessons(report) {
  const rows = report.lessons.map((one) => h('li', { data: { kind: one.kind } }, words.lessonWords(one.words)));
  return [
    part(
      'Lessons',
      rows.length > 0
        ? h('ol', { class: 'lessons' }, rows)
        : h('p', { class: 'quiet' }, 'Nothing stood out by the rules that this page knows.'),
    ),
  ];
}

function sowings(report) {
  if (report.sowings.length === 0) return [];
  return [
    part(
      'Sown and come up',
      rowsTable('Below a fraction stands its interval.', 'Sowing', words.SOWING_TITLES, words.sowingRows(report, zone)),
    ),
  ];
}

function containers(report) {
  if (report.containers.length === 0)
    return [part('Containers', h('p', { class: 'quiet' }, 'No container held seeds or was measured in this season.'))];
  return [
    part(
      'Containers',
      rowsTable('Over the time that was measured.', 'Container', words.CONTAINER_TITLES, words.containerRows(report)),
    ),
  ];
}

function comparisons(report) {
  const made = [];
  if (report.pairs.length > 0) {
    const more = report.pairsLeftOut > 0 ? ` ${f.count(report.pairsLeftOut, 'pair')} with fewer seeds left out.` : '';
    made.push(
      rowsTable(
        `Sowings of one species. An interval with zero in it shows no difference.${more}`,
        'Sowings',
        words.PAIR_TITLES,
        words.pairRows(report),
      ),
    );
  }
  if (report.heatSources) {
    made.push(
      rowsTable(
        `Heat sources, all above ${f.temperature(report.heatSources.base)}.`,
        'Heat source',
        words.SOURCE_TITLES,
        words.sourceRows(report.heatSources),
      ),
      h('p', {}, report.heatSources.verdict),
    );
  }
  return made.length > 0 ? [part('Compared', ...made)] : [];
}

function earlier(report) {
  if (report.earlier.length === 0) return [];
  const rows = words.earlierRows(report, zone);
  return [
    part(
      'Against earlier seasons',
      rows.length > 0
        ? rowsTable('Seeds of all sowings of a species together.', 'Species', words.EARLIER_TITLES, rows)
        : h('p', {}, 'No species was sown in both.'),
      ...words.earlierHeat(report).map((line) => h('p', {}, line)),
    ),
  ];
}

const part = (title, ...children) => h('section', {}, h('h3', {}, title), children);

function rowsTable(caption, first, titles, rows) {
  const columns = [
    { title: first, class: 'name', cell: (row) => lines(row.name) },
    ...titles.map((title, i) => ({ title, cell: (row) => lines(row.cells[i]) })),
  ];
  return h('div', { class: 'table-place' }, table(caption, columns, rows));
}

const lines = ({ main, below }) => [
  h('span', { class: 'main-line' }, main),
  below ? h('span', { class: 'below' }, below) : null,
];

function drawKept() {
  byId('kept-part').hidden = keptSeasons.length === 0;
  reconcile(
    byId('kept'),
    keptSeasons,
    (one) => one.id,
    makeKept,
    (item, one) => {
      const link = item.querySelector('a');
      link.href = `?season=${one.id}`;
      link.setAttribute('aria-current', String(shown.id === one.id));
      setText(link, one.name);
      setText(
        item.querySelector('.about'),
        ` ${words.spanWords(one, zone)}: ${one.sown > 0 ? `${f.count(one.sown, 'seed')} sown, ${f.number(one.germinated)} germinated` : 'nothing sown'}`,
      );
    },
  );
}

function makeKept(season) {
  const remove = h(
    'button',
    {
      type: 'button',
      class: 'plain',
      on: {
        click: () => {
          if (remove.dataset.sure) whileBusy(remove, byId('said'), () => forget(season));
          else {
            remove.dataset.sure = 'true';
            setText(remove, 'Really remove it?');
          }
        },
        blur: () => {
          delete remove.dataset.sure;
          setText(remove, 'Remove');
        },
      },
    },
    'Remove',
  );
  return h(
    'li',
    { class: 'with-button' },
    h(
      'span',
      {},
      h('a', {
        on: {
          click: (event) => {
            event.preventDefault();
            choose({ season: String(season.id) }).catch(showTrouble);
          },
        },
      }),
      h('span', { class: 'about quiet' }),
    ),
    remove,
  );
}

async function forget(season) {
  await api.removeSeason(season.id);
  say(`Removed: ${season.name}.`);
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
  say(`Kept: ${kept.name}.`);
  await choose({ season: String(kept.id) });
}

function showTrouble(problem) {
  shown = null;
  byId('print').disabled = true;
  byId('keep-part').hidden = true;
  announce(problem.message);
  (byId('loading') ?? byId('report')).replaceChildren(
    problemBox(problem),
    problem.unreachable ? 'Trying again by itself.' : '',
  );
}
