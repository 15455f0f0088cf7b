// Starts a page: head, live stream, health of the service. The links in head and foot stand in frame.html.

import { api } from './api.js';
import { learnTime, now } from './clock.js';
import { byId, h, setText } from './dom.js';
import { keepAges } from './ages.js';
import { moment } from './time-format.js';
import { keepHealth, showHealth } from './health.js';
import { liveStream } from './live.js';
import { keepOpenCount } from './open-count.js';
import { catchUp, takeNotice, wakeWithPage } from './tell-here.js';
import { askAgainForKept, freshAgain, keepForOffline, keptSince } from './offline.js';
import { sayZoneAtDates, zoneLine } from './zone-line.js';
import { unitSwitch } from './unit-switch.js';
import { showVisitor } from './visitor.js';
import { texts } from './texts.js';

const LIVE_WORDS = { live: texts.live, connecting: texts.connecting, down: texts.notLive };

/**
 * Completes head and foot, and opens the live stream.
 * @param current address of the page in the menu, such as '/alerts.html'; null for a page that is not in the menu
 * @param handlers live events, by name
 * @param reload fetches everything afresh: called when the stream opens, and again after each break
 * @param redraw called when the unit changes
 * @param lost called when the stream breaks
 */
export function startPage({ current, handlers = {}, reload, redraw, lost }) {
  byId('pages').querySelector(`a[href="${current}"]`)?.setAttribute('aria-current', 'page');
  byId('head').append(unitSwitch(redraw), liveMark());
  byId('explanations').hash = explanationOf(globalThis.location.pathname);
  keepAges();
  // In a task of its own: the one that begins the page is the longest.
  setTimeout(() => {
    keepHealth();
    showVisitor();
    keepForOffline();
  });
  globalThis.addEventListener('kept-changed', showNotice);
  byId('main').prepend(zoneLine());
  sayZoneAtDates();
  wakeWithPage((needed) => {
    byId('press').hidden = !needed;
  });
  const openAlerts = keepOpenCount(byId('pages').querySelector('a[href="/alerts.html"]'));
  const alert = (one) => {
    openAlerts.take(one);
    handlers.alert?.(one);
  };
  const hello = ({ time }) => learnTime(time);
  const notice = (message) => {
    takeNotice(message);
    handlers.notice?.(message);
  };
  const loadFresh = () => {
    freshAgain();
    reload();
  };
  askAgainForKept(loadFresh, isLive);
  /** At the first opening, health and session have just been asked for. */
  let again = false;
  const onState = (state, reason) => {
    showLive(state, reason);
    if (state === 'live') {
      loadFresh();
      if (again) {
        showHealth();
        showVisitor();
      }
      // Without an answer the old number stays; the page says itself that it is not live.
      openAlerts.load().catch(() => {});
      catchUp();
    } else if (state === 'down') {
      lost?.();
    }
    again ||= state !== 'connecting';
  };
  liveStream({
    handlers: { hello, ...handlers, alert, notice },
    probe: () => api.health(5000),
    refusal: api.liveRefusal,
    onState,
  });
}

function liveMark() {
  const lamp = h('span', { class: 'lamp', 'aria-hidden': 'true' });
  return h(
    'span',
    { id: 'live', data: { state: 'connecting' }, role: 'status' },
    lamp,
    h('span', { class: 'word' }, LIVE_WORDS.connecting),
  );
}

/** Heading in figures.html that explains the figures of a page. */
function explanationOf(address) {
  const name = address.replace(/^\/|\.html$/g, '');
  return (
    {
      '': 'shelf',
      index: 'shelf',
      season: 'season-report',
      labels: 'every-page',
      rejects: 'every-page',
      files: 'every-page',
      mappings: 'every-page',
      service: 'every-page',
    }[name] ?? name
  );
}

let downSince = null;
let downReason = '';

/** True until the stream breaks: a page that is still connecting has just fetched what it shows. */
export const isLive = () => downSince === null;

function showLive(state, reason = texts.theServiceDoesNotAnswer2) {
  const live = byId('live');
  live.dataset.state = state;
  setText(live.querySelector('.word'), LIVE_WORDS[state]);
  downSince = state === 'down' ? (downSince ?? now()) : null;
  downReason = reason;
  document.body.classList.toggle('not-live', state === 'down');
  showNotice();
}

/** Shows a notice while the page is not live, or while some of its answers come from the cache. */
function showNotice() {
  const kept = keptSince();
  const since = Math.min(downSince ?? Infinity, kept ?? Infinity);
  const words = downSince === null ? texts.partlyKept : texts.notLiveSinceWhatYou;
  const notice = byId('notice');
  notice.hidden = since === Infinity;
  setText(notice, notice.hidden ? '' : words(moment(since, now()), downReason));
}

/** Repeats `work` until the service answers, so that a page opened before the service is up fills itself later. */
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
