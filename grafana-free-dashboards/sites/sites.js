// Runs the page Sites: the state of each site of the network, the worst first.

import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';
import { byId, h, setText } from '../shared/dom.js';
import { startPage, untilItWorks } from '../shared/page.js';
import { showProblem } from '../shared/trouble.js';
import { cardOf, verdictOf } from './words.js';
import { texts } from './texts.js';

const LOOK_AGAIN_MS = 10_000;

startPage({ current: '/sites.html', reload: () => load().catch(showTrouble), redraw: () => {} });
untilItWorks(load, showTrouble).catch(showTrouble);
setInterval(() => load().catch(showTrouble), LOOK_AGAIN_MS);

async function load() {
  const { sites } = await api.sites();
  byId('loading')?.remove();
  byId('trouble').replaceChildren();
  byId('verdict').hidden = false;
  setText(byId('verdict'), verdictOf(sites));
  byId('sites').replaceChildren(...sites.map((site) => siteCard(site, now())));
}

function siteCard(site, at) {
  const { status, word, sentence, link, facts } = cardOf(site, at);
  return h(
    'li',
    { class: 'site-card', data: { status } },
    h('h2', {}, h('a', { href: site.address }, site.name)),
    h('p', {}, h('span', { class: 'word' }, word), ' ', sentence),
    link && h('p', {}, h('a', { href: link }, texts.lookThere)),
    h(
      'dl',
      {},
      facts.map(({ title, value }) => [h('dt', {}, title), h('dd', {}, value)]),
    ),
  );
}

function showTrouble(problem) {
  showProblem(byId('loading') ?? byId('trouble'), problem);
}
