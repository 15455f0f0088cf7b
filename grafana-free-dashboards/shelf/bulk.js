// Choosing containers, and what can be done with all that are chosen.

import { byId, h, setText } from '../shared/dom.js';
import { openBulkSheet } from './bulk-sheet.js';
import { texts } from './texts.js';
import { ACTIONS } from './words.js';

/**
 * @param list the elements; @param host the list's element
 * @param containers, alerts maps by id; @param changed, alertChanged called with each answer of the service
 */
export function makeBulk({ host, list, containers, alerts, changed, alertChanged }) {
  /** The chosen containers by id; also those that are not shown now. */
  const chosen = new Map();
  const bar = byId('bulk');
  const number = h('p', { class: 'chosen', role: 'status' });
  const all = h('button', { type: 'button', id: 'choose-all', on: { click: toggleAll } }, texts.chooseAll);
  const actions = Object.entries(ACTIONS).map(([name, words]) =>
    h(
      'button',
      {
        type: 'button',
        data: { action: name, needs: name === 'limits' ? 'own' : '' },
        on: { click: () => act(name) },
      },
      words.button,
    ),
  );
  const end = h(
    'button',
    { type: 'button', class: 'plain', id: 'end-choosing', on: { click: stop } },
    texts.endChoosing,
  );
  bar.append(number, h('div', { class: 'actions' }, all, actions, end));
  host.addEventListener('change', ({ target }) => {
    if (!target.closest('.pick')) return;
    if (target.checked) choose(target.value);
    else chosen.delete(target.value);
    draw();
  });

  const choose = (id) => chosen.set(id, containers.get(id));
  const allChosen = () => list.ids().length > 0 && list.ids().every((id) => chosen.has(id));

  function toggleAll() {
    const off = allChosen();
    for (const id of list.ids()) {
      if (off) chosen.delete(id);
      else choose(id);
    }
    mark();
  }

  function mark() {
    for (const [id, element] of list.elements) element.querySelector('.pick input').checked = chosen.has(id);
    draw();
  }

  function draw() {
    setText(number, texts.chosen(chosen.size));
    setText(all, allChosen() ? texts.chooseNone : texts.chooseAll);
    for (const button of actions) button.disabled = chosen.size === 0;
  }

  function act(name) {
    openBulkSheet(name, { containers: [...chosen.values()], alerts: [...alerts.values()], changed, alertChanged });
  }

  function start() {
    bar.hidden = false;
    document.body.classList.add('choosing');
    draw();
  }

  function stop() {
    bar.hidden = true;
    document.body.classList.remove('choosing');
    chosen.clear();
    mark();
    byId('choose').focus();
  }

  return {
    toggle: () => (bar.hidden ? start() : stop()),
    draw: () => !bar.hidden && draw(),
    /** A new element shows whether its container is chosen. */
    made: (element, id) => {
      if (chosen.has(id)) element.querySelector('.pick input').checked = true;
    },
  };
}
