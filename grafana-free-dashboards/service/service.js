// Runs the page Service: the health of each part, and the counts of readings.

import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';
import { byId, h, setText, table } from '../shared/dom.js';
import { count, number } from '../shared/format.js';
import { healthVerdict } from '../shared/health.js';
import { startPage, untilItWorks } from '../shared/page.js';
import { stamp } from '../shared/time-format.js';
import { showProblem } from '../shared/trouble.js';
import { partRows, workingWords } from './words.js';
import { texts } from './texts.js';

const LOOK_AGAIN_MS = 10_000;

startPage({ current: null, reload: () => load().catch(showTrouble), redraw: () => {} });
untilItWorks(load, showTrouble).catch(showTrouble);
setInterval(() => load().catch(showTrouble), LOOK_AGAIN_MS);

async function load() {
  const [health, site] = await Promise.all([api.health(), api.site()]);
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
        { title: texts.details, class: 'words', cell: detailsOf },
      ],
      partRows(health.parts ?? {}, now()),
    ),
  );
  if (health.counts) showCounts(health.counts);
  showTakeOvers(site);
  setText(byId('state-version'), health.version ? texts.version(health.version) : '');
}

/** What a trouble means in the reader's language, and the service's own words. */
const detailsOf = ({ meaning, detail }) => [
  meaning && h('span', { class: 'meaning' }, meaning),
  h('span', { lang: 'en' }, detail),
];

function showTakeOvers({ machine, lease, waiting, takeOvers }) {
  byId('take-overs').hidden = !lease && takeOvers.count === 0;
  setText(byId('working'), workingWords(machine, waiting));
  byId('take-over-list').replaceChildren(
    table(
      takeOvers.count > 0 ? texts.timesInAll(count(takeOvers.count, texts.timeCount)) : texts.noneSoFar,
      [
        { title: texts.when, cell: ({ at }) => stamp(at, now()) },
        { title: texts.worksSince, cell: (row) => row.machine },
        { title: texts.workedBefore, cell: ({ previous }) => previous },
        { title: texts.why, cell: ({ reason }) => texts.reasons[reason] ?? reason },
      ],
      takeOvers.newest,
    ),
  );
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
