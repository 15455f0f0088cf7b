// The containers of the shelf: loads them, keeps their levels, and arranges them as the person chose.

import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';
import { standing } from '../shared/container-words.js';
import { byId, setText } from '../shared/dom.js';
import { arrange, densityFor, isArrangedAnew } from './arrange.js';
import { makeBulk } from './bulk.js';
import { keepChoice, readChoice } from './choice.js';
import { makeChecksDue } from './checks-due.js';
import { followDays } from './days.js';
import { makeList } from './list.js';
import { PART, makeListed } from './listed.js';
import { makeView } from './view-part.js';
import { texts } from './texts.js';
import { shownWords } from './words.js';

const ASK_AGAIN_MS = 10_000;
/** Until the setting is known. */
export const USUAL_GAP_MINUTES = 30;

/** @param alerts by id; @param alertChanged called with an alert; @param drawn called after the list was arranged */
export function makeContainersPart({ alerts, alertChanged, drawn }) {
  const levels = new Map();
  const days = new Map();
  const checks = makeChecksDue();
  const choice = readChoice(location.search);
  const listed = makeListed(choice);
  const { containers, isPart } = listed;
  let maxGapMinutes = USUAL_GAP_MINUTES;
  let live = true;
  let asking = null;

  const followed = followDays((id, day) => {
    days.set(id, day);
    list.changed(id);
  });
  const list = makeList({
    host: byId('containers'),
    contentOf: (id) => containers.has(id) && { container: containers.get(id), day: days.get(id), maxGapMinutes, live },
    made: (element, id) => {
      bulk.made(element, id);
      if (element.matches('.card')) followed.watch(element);
    },
  });
  const bulk = makeBulk({ host: byId('containers'), list, containers, alerts, changed: take, alertChanged });
  const view = makeView({ host: byId('view'), choice, changed: chosen, choose: bulk.toggle });
  byId('more').addEventListener('click', () => {
    listed.askForMore();
    load();
  });

  const levelOf = (container) => standing(container, now(), maxGapMinutes).level;

  async function loadFirst() {
    if (await listed.first()) judgeListed();
  }

  async function load() {
    if (await listed.load()) judgeListed();
  }

  function judgeListed() {
    levels.clear();
    judgeAll();
    if (!listed.few) loadMore();
  }

  /** What the first screen does not need: next checks with their species, and the rooms. */
  async function loadMore() {
    try {
      const [rooms] = await Promise.all([api.rooms(), checks.load()]);
      view.rooms(rooms.map((one) => one.name));
      if (choice.search || choice.sort === 'check') show();
    } catch {
      /* the notice on top tells when the service is away */
    }
  }

  function chosen(name) {
    const query = keepChoice(choice, location.search);
    history.replaceState(null, '', location.pathname + query);
    show();
    if (isPart() && ['search', 'room', 'sort'].includes(name)) load().catch(() => {});
  }

  function show() {
    const items = [...containers.values()].map((container) => ({
      container,
      level: levels.get(container.id),
      check: checks.at(container.id),
      species: checks.species(container.id),
    }));
    const groups = arrange(items, choice);
    const { total, matching, few } = listed;
    const count = groups.reduce((sum, group) => sum + group.items.length, 0);
    list.show(groups, { ...choice }, densityFor(choice.density, total));
    if (!few) setText(byId('shown'), shownWords({ shown: count, held: items.length, matching, total }));
    byId('containers-part').hidden = total === 0;
    byId('view').hidden = total < 2;
    byId('more').hidden = few || matching <= items.length;
    setText(byId('more'), texts.showMore(Math.min(PART, matching - items.length)));
    bulk.draw();
    drawn();
  }

  function judgeAll() {
    for (const one of containers.values()) levels.set(one.id, levelOf(one));
    list.allChanged();
    show();
  }

  /** Arranges afresh only if the container may have another place now. */
  function take(container) {
    const old = containers.get(container.id);
    const level = levelOf(container);
    if (!old && isPart() && !listed.few) {
      if (level === 'act' || level === 'silent') askAgain();
      return;
    }
    listed.count(container);
    containers.set(container.id, container);
    list.changed(container.id);
    const moved = !old || level !== levels.get(container.id) || isArrangedAnew(old, container);
    levels.set(container.id, level);
    if (moved) show();
  }

  /** A container that is not held needs somebody: asks for the worst again, not more often than every 10 s. */
  function askAgain() {
    asking ??= setTimeout(() => {
      asking = null;
      load().catch(() => {});
    }, ASK_AGAIN_MS);
  }

  return {
    containers,
    loadFirst,
    load,
    take,
    /** Draws all afresh. @param rules maxGapMinutes and live, if they have changed */
    drawAll: (rules) => {
      ({ maxGapMinutes = maxGapMinutes, live = live } = rules);
      judgeAll();
    },
    isPart,
    waiting: () => [...levels.values()].filter((level) => level === 'act' || level === 'silent').length,
  };
}
