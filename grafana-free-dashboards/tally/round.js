// A round: the check of one container after the other, with one thumb. It survives a reload, such as by a scanned label.

import { now } from '../shared/clock.js';
import { byId, h } from '../shared/dom.js';
import { count } from '../shared/format.js';
import { dueStops, keptRound, marked, newRound, nextStop, skippedAgain, stopsThat } from './round-plan.js';
import { texts } from './texts.js';

const checks = (n) => count(n, texts.checkCount);
const STORE = 'tepidarium.round';

/**
 * @param tally the newest tally; @param roomOf, names room and name of a container, by its id
 * @param choice species and room that are chosen in the list of checks
 * @param openCheck opens the sheet of a group with the words and functions of a stop
 */
export function makeRound({ tally, roomOf, names, choice, openCheck }) {
  let round = recall();
  const start = h('button', { type: 'button', class: 'main', id: 'start-round', on: { click: begin } });
  const end = h(
    'button',
    { type: 'button', class: 'plain', id: 'end-round', on: { click: () => keep(null) } },
    texts.endTheRound,
  );
  byId('round').append(start, end);

  function recall() {
    try {
      return keptRound(localStorage.getItem(STORE), now());
    } catch {
      return null; // storage is forbidden; the round lasts as long as the page
    }
  }

  function keep(next) {
    round = next;
    try {
      if (next) localStorage.setItem(STORE, JSON.stringify(next));
      else localStorage.removeItem(STORE);
    } catch {
      /* see above */
    }
    draw();
  }

  const due = () => dueStops(tally().sowings, now(), { roomOf, ...choice() });
  const isLiving = (id) =>
    tally().sowings.some((sowing) =>
      sowing.groups.some((group) => group.id === id && group.ungerminated + group.germinated > 0),
    );

  function begin() {
    if (!round) keep(newRound(due(), now()));
    goOn();
  }

  /** @param container where to go on; anywhere if nothing of the round waits there */
  function goOn(container) {
    let stop = nextStop(round, container);
    // Another device may have ended a group meanwhile.
    while (stop && !isLiving(stop.group)) {
      round = marked(round, stop.group, 'gone');
      stop = nextStop(round, container);
    }
    if (stop) show(stop);
    else finish();
  }

  function show(stop) {
    const all = round.stops.length;
    const waiting = stopsThat(round, 'waiting').length;
    const finished = (state) => {
      keep(marked(round, stop.group, state));
      goOn(stop.container);
    };
    openCheck(stop.group, {
      place: [texts.placeInRound(all - waiting + 1, all), roomOf(stop.container)].filter(Boolean).join(' · '),
      submit: waiting > 1 ? texts.doneNext : texts.done,
      skip: h('button', { type: 'button', class: 'pass-by', on: { click: () => finished('skipped') } }, texts.skip),
      stop: h('button', { type: 'button', class: 'plain stop', on: { click: finish } }, texts.stopHere),
      saved: () => finished('done'),
    });
  }

  /** What was done and what was not. Stopped early, the round can still be gone on with. */
  function finish() {
    const sheet = byId('sheet');
    const whole = round;
    const skipped = stopsThat(round, 'skipped');
    const left = stopsThat(round, 'waiting').length;
    const again = () => {
      keep(skippedAgain(whole));
      goOn();
    };
    sheet.replaceChildren(
      h('h2', { id: 'sheet-title', tabindex: '-1' }, left > 0 ? texts.roundStopped : texts.roundFinished),
      h('p', {}, texts.writtenInRound(checks(stopsThat(round, 'done').length))),
      left > 0 ? h('p', {}, texts.notReachedInRound(checks(left))) : '',
      skipped.length > 0 ? h('p', {}, texts.skippedThese) : '',
      h(
        'ul',
        {},
        skipped.map((stop) => h('li', {}, names(stop.container))),
      ),
      h(
        'div',
        { class: 'actions' },
        skipped.length > 0 &&
          h('button', { type: 'button', id: 'round-again', on: { click: again } }, texts.checkTheSkipped),
        h('button', { type: 'button', class: 'main', on: { click: () => sheet.close() } }, texts.closeTheRound),
      ),
    );
    sheet.classList.add('night');
    if (!sheet.open) sheet.showModal();
    byId('sheet-title').focus();
    keep(left > 0 ? round : null);
  }

  function draw() {
    if (!tally()) return;
    const stops = round ? stopsThat(round, 'waiting') : due();
    byId('round').hidden = stops.length === 0;
    start.textContent = round ? texts.goOnWithRound(checks(stops.length)) : texts.startARound(checks(stops.length));
    end.hidden = !round;
  }

  return {
    draw,
    /** Goes on at a scanned container; false if no round is under way or nothing of it waits there. */
    scanned: (container) => {
      if (!round || nextStop(round, container)?.container !== container) return false;
      goOn(container);
      return true;
    },
  };
}
