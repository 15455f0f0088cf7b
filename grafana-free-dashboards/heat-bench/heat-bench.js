// Compares containers or heat sources, and tries a place. Everything is kept in the address.

import { api } from '../shared/api.js';
import { byId, h, problemBox, setOptions, setText, table } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { now } from '../shared/clock.js';
import { createChart } from '../shared/chart.js';
import { comparisonSentence, trialSentence } from './sentences.js';
import { startPage, untilItWorks } from '../shared/page.js';
import {
  COMPARED_TITLES,
  PAIR_TITLES,
  comparedRows,
  leftOut,
  pairRows,
  profileColumns,
  sourcesOf,
  trialRows,
  wattsOf,
} from './words.js';

const DAY_MS = 86_400_000;
const SPANS = [
  { key: '3d', title: '3 days', days: 3 },
  { key: '7d', title: '7 days', days: 7 },
  { key: '4wk', title: '4 weeks', days: 28 },
  { key: 'all', title: 'All', days: null },
];
const TRIAL_SPANS = [
  { value: '1', text: '24 hours' },
  { value: '2', text: '48 hours' },
  { value: '4', text: '4 days' },
  { value: '7', text: '7 days' },
];
const MOST = 8;
const COLOURS = [
  ['--line'],
  ['--cold', [8, 4]],
  ['--moss', [2, 3]],
  ['--watch', [10, 3, 2, 3]],
  ['--room'],
  ['--hot', [4, 4]],
  ['--edge', [1, 3]],
  ['--clay', [12, 4]],
];
/** A day of no date: only its hours are shown. */
const START_MS = new Date(2001, 0, 1).getTime();

let containers = [];
let choice = fromAddress();
let answer = null;
let trial = null;
let chart = null;
let newestAsk = 0;
let loading = null;

startPage({ current: '/heat-bench.html', reload: () => load().catch(showTrouble), redraw });
untilItWorks(load, showTrouble).catch(showTrouble);

function fromAddress() {
  const query = new URLSearchParams(location.search);
  const sources = query.getAll('source');
  return {
    by: sources.length > 0 ? 'sources' : 'containers',
    keys: sources.length > 0 ? sources : query.getAll('container'),
    span: SPANS.find((one) => one.key === query.get('span')) ?? SPANS[2],
  };
}

function toAddress() {
  const query = new URLSearchParams();
  for (const key of choice.keys) query.append(choice.by === 'sources' ? 'source' : 'container', key);
  query.set('span', choice.span.key);
  history.replaceState(null, '', `?${query}`);
}

/** The page and the live stream both ask at the start; one answer serves both. */
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
  if (choice.keys.length === 0) choice = { ...choice, ...firstChoice() };
  drawChoice();
  setOptions(
    byId('trial-container'),
    containers.map(({ id, name }) => ({ value: id, text: name })),
  );
  setOptions(byId('trial-span'), TRIAL_SPANS);
  if (!answer && !trial) byId('trial-span').value = '2';
  byId('trial-part').hidden = containers.length === 0;
  await compare();
}

/** Two sources where there are two, else the first two containers. */
function firstChoice() {
  const sources = sourcesOf(containers).sort((a, b) => b.count - a.count);
  return sources.length >= 2
    ? { by: 'sources', keys: sources.slice(0, 2).map((one) => one.name) }
    : { by: 'containers', keys: containers.slice(0, 2).map((one) => one.id) };
}

function drawChoice() {
  const option = (by, key, text) =>
    h(
      'label',
      { class: 'choice' },
      h('input', {
        type: 'checkbox',
        name: by,
        value: key,
        checked: choice.by === by && choice.keys.includes(key),
        on: { change: (event) => choose(by, key, event.target.checked) },
      }),
      text,
    );
  const sources = sourcesOf(containers);
  byId('sources').hidden = sources.length < 2;
  fill(
    byId('sources').querySelector('.choices'),
    sources.map(({ name, count }) => option('sources', name, `${name} (${count})`)),
  );
  fill(
    byId('containers').querySelector('.choices'),
    containers.map(({ id, name }) => option('containers', id, name)),
  );
  fill(
    byId('span').querySelector('.presets'),
    SPANS.map((one) =>
      h(
        'button',
        { type: 'button', 'aria-pressed': String(one === choice.span), on: { click: () => chooseSpan(one) } },
        one.title,
      ),
    ),
  );
}

/** Puts new children in place of the old, and the focus back where it was. */
function fill(place, children) {
  const focused = [...place.children].findIndex((child) => child.contains(document.activeElement));
  place.replaceChildren(...children);
  if (focused >= 0) (place.children[focused]?.querySelector('input') ?? place.children[focused])?.focus();
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
  toAddress();
  drawChoice();
  compare().catch(showTrouble);
}

async function compare() {
  const ask = ++newestAsk;
  const keys = choice.keys;
  const enough = keys.length >= 2 && keys.length <= MOST;
  setText(
    byId('choice-help'),
    enough
      ? ''
      : containers.length < 2
        ? 'Two containers are needed for a comparison.'
        : `Choose two to ${MOST} of one kind.`,
  );
  if (!enough) {
    answer = null;
    drawComparison();
    return;
  }
  byId('comparison').setAttribute('aria-busy', 'true');
  if (answer === null) byId('comparison').replaceChildren(h('p', { class: 'waiting' }, 'Comparing …'));
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

const INTERVAL_NOTE =
  'Where the weather stays alike for a day or two, these intervals are too narrow: some hold the truth in only 82 of 100 cases.';

function drawComparison() {
  byId('profile-part').hidden = answer === null;
  if (answer === null) {
    byId('comparison').replaceChildren();
    return;
  }
  const pairs = pairRows(answer);
  const finding = pairs.length === 1 ? pairs[0].finding : 'several';
  const nameOf = (id) => containers.find((one) => one.id === id)?.name ?? id;
  byId('comparison').replaceChildren(
    h('p', { class: 'bench-verdict', data: { finding } }, comparisonSentence(answer)),
    ...[leftOut(answer, nameOf)].filter((text) => text).map((text) => h('p', { class: 'caution' }, text)),
    tablePlace(
      `Each by itself, from ${f.stamp(answer.from, now())} to ${f.stamp(answer.to, now())}. Heat above ${f.temperature(answer.base)}; below each figure its 95 % interval.`,
      COMPARED_TITLES,
      comparedRows(answer),
    ),
    h('h3', {}, 'Differences'),
    tablePlace(
      'Over the hours that were well covered in both; below each figure its 95 % interval. An interval with zero in it shows no difference.',
      PAIR_TITLES,
      pairs,
    ),
    ...(pairs.length > 1
      ? [
          h(
            'ul',
            { class: 'pair-words' },
            pairs.map((pair) => h('li', {}, pair.words)),
          ),
        ]
      : []),
    h(
      'p',
      { class: 'interval-note' },
      `${INTERVAL_NOTE} `,
      h('a', { href: '/figures.html#how-often-the-intervals-hold' }, 'How often?'),
    ),
  );
  drawProfile();
}

function tablePlace(caption, titles, rows) {
  const columns = [
    { title: '', cell: (row) => row.name },
    ...titles.map((title, i) => ({ title, class: 'number', cell: (row) => lines(row.cells[i]) })),
  ];
  return h('div', { class: 'table-place bench' }, table(caption, columns, rows));
}

const lines = ({ main, interval }) => [
  h('span', { class: 'figure-line' }, main),
  interval ? h('span', { class: 'interval' }, interval) : null,
];

function drawProfile() {
  const place = byId('profile');
  chart?.destroy();
  chart = createChart(place, {
    series: answer.compared.map((one, i) => ({ color: COLOURS[i][0], width: 2, dash: COLOURS[i][1] })),
    range: (min, max) => (min === null || min === undefined ? [0, 1] : [min - 0.5, max + 0.5]),
    formatTick: (value) => f.number(value, Number.isInteger(value) ? 0 : 1),
    formatTime: (at) => f.clockTime(at),
    onCursor: () => {},
    onZoom: () => {},
    onReset: () => {},
    sync: 'profile',
  });
  const columns = profileColumns(answer, START_MS);
  chart.update({ columns, from: START_MS, to: START_MS + DAY_MS, marks: [] });
  setText(byId('profile-title'), `Through the day, ${f.unitName()}`);
  place.setAttribute(
    'aria-label',
    `Mean temperature by hour of the day of ${answer.compared.map((one) => one.name).join(', ')}; the figures stand in the table below.`,
  );
  byId('profile-key').replaceChildren(
    ...answer.compared.map((one, i) => h('span', { class: 'key-entry' }, swatch(i), one.name)),
    `Local hours of ${answer.timeZone}.`,
  );
  const rows = columns[0].map((at, hour) => ({
    hour: `${String(hour).padStart(2, '0')}:00`,
    values: columns.slice(1).map((column) => f.number(column[hour], 1)),
  }));
  byId('profile-table').replaceChildren(
    table(
      'Mean temperature in each hour of the local day.',
      [
        { title: 'Hour', cell: (row) => row.hour },
        ...answer.compared.map((one, i) => ({ title: one.name, class: 'number', cell: (row) => row.values[i] })),
      ],
      rows,
    ),
  );
}

function swatch(i) {
  const [color, dash] = COLOURS[i];
  const element = h('span', { class: 'swatch', 'aria-hidden': 'true' });
  element.style.borderTopColor = `var(${color})`;
  element.style.borderTopStyle = dash ? (dash[0] <= 2 ? 'dotted' : 'dashed') : 'solid';
  return element;
}

byId('choice').addEventListener('submit', (event) => event.preventDefault());
byId('trial-form').addEventListener('submit', (event) => {
  event.preventDefault();
  tryPlace();
});

async function tryPlace() {
  const watts = wattsOf(byId('trial-watts').value);
  const place = byId('trial');
  if (watts === undefined) {
    place.replaceChildren(problemBox({ message: 'The power must be a number of watts, such as 20, or left empty.' }));
    return;
  }
  place.setAttribute('aria-busy', 'true');
  try {
    trial = await api.trial(byId('trial-container').value, {
      from: now() - Number(byId('trial-span').value) * DAY_MS,
      watts,
    });
    drawTrial();
  } catch (problem) {
    trial = null;
    place.replaceChildren(problemBox(problem));
  } finally {
    place.removeAttribute('aria-busy');
  }
}

function drawTrial() {
  byId('trial').replaceChildren(
    h('p', { class: 'bench-verdict', data: { outcome: trial.outcome } }, trialSentence(trial)),
    h(
      'dl',
      { class: 'facts' },
      trialRows(trial).map(([title, text]) => h('div', {}, h('dt', {}, title), h('dd', {}, text))),
    ),
  );
}

function redraw() {
  if (answer) drawComparison();
  if (trial) drawTrial();
}

function showTrouble(problem) {
  const place = byId('loading') ?? byId('comparison');
  place.replaceChildren(problemBox(problem), problem.unreachable ? 'Trying again by itself.' : '');
}
