// Runs the page Service: the health of each part, and the counts of readings.

import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';
import { byId, h, setText, table } from '../shared/dom.js';
import { count, number } from '../shared/format.js';
import { healthVerdict } from '../shared/health.js';
import { startPage, untilItWorks } from '../shared/page.js';
import { showProblem } from '../shared/trouble.js';
import { partRows } from './words.js';
import { texts } from './texts.js';

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
      texts.partsThoseThatDoNot,
      [
        { title: texts.part, cell: (row) => row.title },
        { title: texts.state, cell: (row) => h('span', { class: row.works ? 'up' : 'down' }, row.state) },
        { title: texts.details, cell: (row) => row.detail },
      ],
      partRows(health.parts ?? {}, now()),
    ),
  );
  if (health.counts) showCounts(health.counts);
  setText(byId('state-version'), health.version ? texts.version(health.version) : '');
}

function showCounts(counts) {
  byId('state-counts').replaceChildren(
    texts.readingsSinceTheStartReceived(
      number(counts.received),
      number(counts.stored),
      number(counts.repeated),
      number(counts.waiting),
    ),
    h('a', { href: '/rejects.html' }, texts.notUnderstood(count(counts.rejected ?? 0, texts.messageCount))),
    '.',
  );
}

function showTrouble(problem) {
  showProblem(byId('loading') ?? byId('trouble'), problem);
}
