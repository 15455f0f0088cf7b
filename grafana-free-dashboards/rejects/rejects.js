// Runs the page Not understood: messages that could not be read, with reason and remedy.

import { setAge } from '../shared/ages.js';
import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';
import { byId, h, reconcile, setText } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { startPage, untilItWorks } from '../shared/page.js';
import { remedyFor } from '../shared/remedies.js';
import * as t from '../shared/time-format.js';
import { showProblem } from '../shared/trouble.js';
import { pageZone } from '../shared/zone.js';
import { texts } from './texts.js';

const SHOWN = 100;
const LOOK_AGAIN_MS = 10_000;

startPage({ current: '/rejects.html', reload: () => load().catch(showTrouble), redraw: () => {} });
untilItWorks(load, showTrouble).catch(showTrouble);
setInterval(() => load().catch(() => {}), LOOK_AGAIN_MS);

async function load() {
  const { total, kept, rejects } = await api.rejects(SHOWN);
  byId('loading')?.remove();
  setText(byId('total'), totalWords(total, kept, rejects.length));
  // Rows need distinct keys, so equal rejects of the same instant are shown once.
  const seen = new Map();
  const keyOf = (reject) => `${reject.at} ${reject.topic} ${reject.reason}`;
  const unique = rejects.filter((reject) => !seen.has(keyOf(reject)) && seen.set(keyOf(reject), true));
  reconcile(byId('rejects'), unique, keyOf, makeReject, (item, reject) =>
    setAge(item.querySelector('time'), reject.at, '', `, ${t.moment(reject.at, now())}`),
  );
}

function totalWords(total, kept, shown) {
  if (total === 0) return texts.nothingSoFarEveryMessage;
  const parts = [texts.inAll(f.count(total, texts.messageCount))];
  if (kept < total) parts.push(texts.theNewestAreKept(f.number(kept)));
  if (shown < kept) parts.push(texts.theNewestAreShown(f.number(shown)));
  return texts.timesAsIn(parts.join('; '), pageZone);
}

function makeReject(reject) {
  return h(
    'li',
    { class: 'reject-card' },
    h(
      'p',
      { class: 'alert-title' },
      h('code', {}, reject.topic || texts.noTopic),
      ' ',
      h('time', { class: 'age quiet' }),
    ),
    h('p', {}, texts.reasons[reject.code] ?? texts.reasons.other),
    h('p', {}, h('strong', {}, texts.whatToDo), remedyFor(reject), mappingLink(reject)),
    h(
      'pre',
      { tabindex: '0', 'aria-label': texts.payload },
      h('code', {}, reject.payload === '' ? texts.empty : (reject.payload ?? texts.notKept)),
    ),
    // The service's own words, with the field and value, for the one who programs the device.
    h('p', { class: 'help' }, h('code', { lang: 'en' }, reject.reason)),
  );
}

/** A rule can read topics and fields that the service does not know. */
function mappingLink({ code, topic }) {
  if (!['topic', 'unmapped-topic', 'forbidden-topic'].includes(code)) return null;
  return [' ', h('a', { href: `/mappings.html?topic=${encodeURIComponent(topic)}` }, texts.readItWithARule)];
}

function showTrouble(problem) {
  showProblem(byId('loading'), problem);
}
