// The elements of the list: makes them a few in each frame, and updates only those that changed.

import { makeCard, updateCard } from '../shared/card.js';
import { h, reconcile, setText } from '../shared/dom.js';
import { makeLine, updateLine } from '../shared/line.js';
import { inFrames } from './frames.js';
import { texts } from './texts.js';
import { groupTitle } from './words.js';

/** So many are made at once, so that the first screen is full without waiting for a frame. */
const AT_ONCE = 8;

/**
 * @param host where the groups go
 * @param contentOf gives what an element shows, by the id of its container
 * @param made called with each new element
 */
export function makeList({ host, contentOf, made }) {
  const elements = new Map();
  const changed = new Set();
  let groups = [];
  let order = [];
  let choice = { group: 'none' };
  let density = null;
  let place = false;
  /** All before it have an element. */
  let next = 0;

  function element(container) {
    const { id } = container;
    if (!elements.has(id)) {
      const one = density === 'card' ? makeCard(container) : makeLine(container);
      one.append(pick(container));
      elements.set(id, one);
      update(id);
      made(one, id);
    }
    return elements.get(id);
  }

  function update(id) {
    const content = contentOf(id);
    if (content) (density === 'card' ? updateCard : updateLine)(elements.get(id), content);
    else elements.delete(id);
  }

  /** One step of the work of a frame: an element to update first, then one to make. */
  function step() {
    const [id] = changed;
    if (id !== undefined) {
      changed.delete(id);
      if (elements.has(id)) update(id);
      return true;
    }
    while (next < order.length && elements.has(order[next].id)) next += 1;
    if (next === order.length) return false;
    element(order[next]);
    place = true;
    return true;
  }

  function put() {
    if (!place) return;
    place = false;
    const ready = groups
      .map((group) => ({ ...group, ready: group.items.filter(({ container }) => elements.has(container.id)) }))
      .filter((group) => group.ready.length > 0);
    reconcile(host, ready, (group) => `${choice.group}/${group.key}`, makeGroup, updateGroup);
  }

  function updateGroup(section, group) {
    const title = groupTitle(choice.group, group);
    const heading = section.querySelector('h3');
    setText(heading, title);
    if (heading.hidden !== (title === '')) heading.hidden = title === '';
    const grid = section.querySelector('.shelf');
    reconcile(
      grid,
      group.ready,
      ({ container }) => container.id,
      ({ container }) => element(container),
    );
  }

  const ask = inFrames(step, put);

  return {
    /** The container has changed; its element follows in the next frame. */
    changed: (id) => {
      changed.add(id);
      ask();
    },
    /** All may have changed, by time alone or by the unit. */
    allChanged: () => {
      for (const id of elements.keys()) changed.add(id);
      ask();
    },
    /** @param arranged as `arrange` gives it; @param size card, row or tile */
    show: (arranged, chosen, size) => {
      if ((size === 'card') !== (density === 'card')) {
        elements.clear();
        host.replaceChildren();
      }
      density = size;
      choice = chosen;
      groups = arranged;
      next = 0;
      order = groups.flatMap((group) => group.items.map((item) => item.container));
      if (host.dataset.density !== size) host.dataset.density = size;
      const first = new Set(order.slice(0, AT_ONCE).map(element));
      for (const one of elements.values()) one.classList.toggle('at-once', first.has(one));
      place = true;
      put();
      ask();
    },
    ids: () => order.map((container) => container.id),
    elements,
  };
}

const makeGroup = () =>
  h('section', { class: 'shelf-group' }, h('h3', { class: 'shelf-title' }), h('div', { class: 'shelf' }));

const pick = ({ id, name }) =>
  h('label', { class: 'pick' }, h('input', { type: 'checkbox', value: id, 'aria-label': texts.chooseOne(name) }));
