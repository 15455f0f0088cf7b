// Runs the page Service: the health of each part, and the counts of readings.

import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';
import { byId, h, setText, table } from '../shared/dom.js';
import { count, number } from '../shared/format.js';
import { healthVerdict } from '../shared/health.js';
import { startPage, untilItWorks } from '../shared/page.js';
import { showProblem } from '../shared/trouble.js';
import { partRows } from './words.js';

const LOOK_AGAIN_MS = 10_000;

startPage({ current: null, reload: () => load().catch(showTrouble), redraw: () => {} });
untilItWorks(load, showTrouble).catch(showTrouble);
setInterval(() => load().catch(showTrouble), LOOK_AGAIN_MS);

async function load() {
  const health = await api.health();
  byId('loading')?.remove();
  byId('trouble').replaceChildren();
  byId('state').hidden = false;
  setText(byId('state-verdict'), healthVerdict(health));
  byId('state-parts').replaceChildren(
    table(
      'Parts; those that do not work come first.',
      [
        { title: 'Part', cell: (row) => row.title },
        { title: 'State', cell: (row) => h('span', { class: row.works ? 'up' : 'down' }, row.state) },
        { title: 'Details', cell: (row) => row.detail },
      ],
      partRows(health.parts ?? {}, now()),
    ),
  );
  if (health.counts) showCounts(health.counts);
  setText(byId('state-version'), health.version ? `Version ${health.version}.` : '');
}

function showCounts(counts) {
  byId('state-counts').replaceChildren(
    `Readings since the start: ${number(counts.received)} received, ${number(counts.stored)} stored, ${number(counts.repeated)} repeated, ${number(counts.waiting)} waiting. `,
    h('a', { href: '/rejects.html' }, `${count(counts.rejected ?? 0, 'message')} not understood`),
    '.',
  );
}

function showTrouble(problem) {
  showProblem(byId('loading') ?? byId('trouble'), problem);
}
