// What all pages share: head, unit switch, live indicator, foot with health and cautions.

import { api } from './api.js';
import { byId, h, keepAges, setText, reconcile } from './dom.js';
import { number, moment, setTemperatureUnit, temperatureUnit, count } from './format.js';
import { learnTime, now } from './clock.js';
import { liveStream } from './live.js';
import { catchUp, takeNotice, wakeWithPage } from './tell-here.js';

const PAGES = [
  { key: 'shelf', href: '/', title: 'Shelf' },
  { key: 'alerts', href: '/alerts.html', title: 'Alerts' },
  { key: 'tally', href: '/tally.html', title: 'Tally' },
  { key: 'heat-bench', href: '/heat-bench.html', title: 'Heat bench' },
  { key: 'rejects', href: '/rejects.html', title: 'Not read' },
];
const DOCUMENTS = {
  Sensors: '/docs/sensors.html', Counting: '/docs/counting.html', Alerts: '/docs/alerts.html', Notices: '/docs/notices.html',
  Settings: '/docs/settings.html', Stores: '/docs/stores.html', Operation: '/docs/operation.html', API: '/docs/api.html', Changes: '/docs/changes.html',
};
const HEALTH_EVERY_MS = 30_000;
const LIVE_WORDS = { live: 'Live', connecting: 'Connecting', down: 'Not live' };

/**
 * Builds head and foot and opens the live stream.
 * @param current key of the page in the head
 * @param handlers live events, by name
 * @param reload fetches everything afresh: called when the stream opens, and again after each break
 * @param redraw called when the unit changes; @param lost called when the stream breaks
 */
export function startPage({ current, handlers = {}, reload, redraw, lost }) {
  byId('head').append(...head(current, redraw));
  byId('foot').append(...foot());
  keepAges();
  showHealth();
  setInterval(showHealth, HEALTH_EVERY_MS);
  tellWithPage();
  const hello = ({ time }) => learnTime(time);
  const notice = (told) => {
    takeNotice(told);
    handlers.notice?.(told);
  };
  liveStream({ handlers: { hello, ...handlers, notice }, probe: () => api.health(5000), refusal: api.liveRefusal, onState: (state, reason) => {
    showLive(state, reason);
    if (state === 'live') {
      reload();
      showHealth();
      catchUp();
    } else if (state === 'down') {
      lost?.();
    }
  } });
}

function head(current, redraw) {
  const links = PAGES.map((page) => h('li', {}, h('a', { href: page.href, 'aria-current': page.key === current ? 'page' : null }, page.title)));
  return [
    h('a', { class: 'skip', href: '#main' }, 'To the content'),
    h('a', { class: 'brand', href: '/', 'aria-label': 'Tepidarium, to the Shelf' }, h('img', { src: '/mark.svg', alt: '', width: 30, height: 30 }), h('span', {}, 'Tepidarium')),
    h('nav', { 'aria-label': 'Pages' }, h('ul', {}, links)),
    unitSwitch(redraw),
    h('span', { id: 'live', data: { state: 'connecting' }, role: 'status' }, h('span', { class: 'lamp', 'aria-hidden': 'true' }), h('span', { class: 'word' }, LIVE_WORDS.connecting)),
  ];
}

function unitSwitch(redraw) {
  const button = h('button', { type: 'button', class: 'units', on: { click: () => {
    setTemperatureUnit(temperatureUnit() === 'C' ? 'F' : 'C');
    mark();
    redraw?.();
  } } }, h('span', {}, '°C'), h('span', { 'aria-hidden': 'true' }, ' / '), h('span', {}, '°F'));
  const mark = () => {
    const fahrenheit = temperatureUnit() === 'F';
    button.children[0].className = fahrenheit ? '' : 'on';
    button.children[2].className = fahrenheit ? 'on' : '';
    button.setAttribute('aria-label', `Temperatures in ${fahrenheit ? 'Fahrenheit; change to Celsius' : 'Celsius; change to Fahrenheit'}`);
  };
  mark();
  return button;
}

/** Every page tells of notices where this device was asked to; the switch is on the Alerts page. */
function tellWithPage() {
  const missing = h('p', { id: 'press', class: 'press', role: 'status', hidden: true }, 'Press anywhere on this page: until then the browser lets it make no sound when there is a notice.');
  byId('notice').after(missing);
  wakeWithPage((needed) => { missing.hidden = !needed; });
}

let downSince = null;

/** Before the first connection a page is given the benefit of the doubt: it has just fetched what it shows. */
export const isLive = () => downSince === null;

function showLive(state, reason = 'The service does not answer.') {
  const live = byId('live');
  live.dataset.state = state;
  setText(live.querySelector('.word'), LIVE_WORDS[state]);
  downSince = state === 'down' ? downSince ?? now() : null;
  document.body.classList.toggle('not-live', state === 'down');
  const notice = byId('notice');
  notice.hidden = state !== 'down';
  setText(notice, state === 'down'
    ? `Not live since ${moment(downSince, now())}. ${reason} What you see may be out of date; each figure says how old it is. Trying again by itself.`
    : '');
}

/** The part of the explanations that belongs to this page. */
function figuresOfPage() {
  const name = globalThis.location.pathname.replace(/^\/|\.html$/g, '');
  return { '': 'shelf', season: 'season-report', rejects: 'every-page' }[name] ?? name;
}

function foot() {
  return [
    h('section', { class: 'service', 'aria-label': 'Service' }, h('p', { id: 'service-health' }, 'Asking the service how it is …'), h('ul', { id: 'service-parts' }),
      h('p', { id: 'service-counts' }),
      h('p', {}, h('a', { href: `/figures.html#${figuresOfPage()}` }, 'How is this worked out?')),
      h('p', { class: 'documents' }, 'Help: ', Object.entries(DOCUMENTS).flatMap(([title, href]) => [' · ', h('a', { href }, title)]).slice(1))),
    h('section', { class: 'cautions', 'aria-labelledby': 'cautions-title' },
      h('h2', { id: 'cautions-title' }, 'Cautions'),
      h('ul', {},
        h('li', {}, 'Mains near water can kill. Heat mats, thermostats and lamps belong behind residual-current protection; follow local codes and have fixed wiring done by a licensed electrician.'),
        h('li', {}, 'Keep lithium cells outside hot, wet containers.'),
        h('li', {}, 'Mould grows in warm, moist containers: open them where air moves, wear a mask, do not lean over.'),
        h('li', {}, 'Some trees are protected, and collecting seed may need a permit. Ask before you gather.'))),
  ];
}

function healthVerdict(status, parts) {
  if (status === 'up') return 'The service is well.';
  return parts.some(([, part]) => part.status === 'down') ? 'The service runs, but part of it does not.' : 'The service is starting.';
}

async function showHealth() {
  let health;
  try {
    health = await api.health();
  } catch (problem) {
    setText(byId('service-health'), problem.message);
    byId('service-parts').replaceChildren();
    return;
  }
  const parts = Object.entries(health.parts ?? {});
  setText(byId('service-health'), `${healthVerdict(health.status, parts)} Version ${health.version ?? 'not told'}.`);
  reconcile(byId('service-parts'), parts, ([name]) => name, () => h('li', {}), (item, [name, part]) => {
    item.className = part.status === 'up' ? 'up' : 'down';
    setText(item, `${name}: ${part.status}${part.detail ? `, ${part.detail}` : ''}`);
  });
  showCounts(health.counts ?? {});
}

function showCounts(counts) {
  byId('service-counts').replaceChildren(
    `Readings received ${number(counts.received)}, stored ${number(counts.stored)}, repeated ${number(counts.repeated)}, waiting ${number(counts.waiting)}. `,
    h('a', { href: '/rejects.html' }, `${count(counts.rejected ?? 0, 'message')} could not be read`), '.');
}

/** Tries until it works, so that a page opened before the service is up fills itself later. */
export async function untilItWorks(work, onTrouble) {
  for (let waitMs = 2000; ; waitMs = Math.min(waitMs * 1.5, 15_000)) {
    try {
      return await work();
    } catch (problem) {
      if (!problem.unreachable) throw problem;
      onTrouble?.(problem);
      await new Promise((wake) => setTimeout(wake, waitMs));
    }
  }
}
