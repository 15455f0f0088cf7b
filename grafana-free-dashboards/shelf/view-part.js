// The controls of the shelf: search, groups, order, size, filters.

import { h, setOptions } from '../shared/dom.js';
import { texts } from './texts.js';
import { CHOICES, FIELDS, STATES } from './words.js';

const TYPING_MS = 250;

/**
 * @param choice the present choice, changed in place; @param changed called after each change
 * @param choose called when the person wants to choose containers
 */
export function makeView({ host, choice, changed, choose }) {
  const take = (name, value) => {
    choice[name] = value;
    changed(name);
  };
  let typing = null;
  const search = h('input', {
    type: 'search',
    id: 'view-search',
    value: choice.search,
    placeholder: texts.searchFor,
    'aria-label': texts.searchLabel,
    autocomplete: 'off',
    on: {
      input: () => {
        clearTimeout(typing);
        typing = setTimeout(() => take('search', search.value), TYPING_MS);
      },
    },
  });
  const selects = {};
  const field = (name, options) => {
    const select = h('select', { id: `view-${name}`, on: { change: () => take(name, select.value) } });
    setOptions(
      select,
      Object.entries(options).map(([value, text]) => ({ value, text })),
    );
    select.value = choice[name];
    selects[name] = select;
    return h('div', { class: 'field' }, h('label', { for: select.id }, FIELDS[name]), select);
  };
  const panel = h('div', { id: 'view-panel', class: 'fields', hidden: true });
  /** Made later than the rest: the panel is closed at first. */
  const fillPanel = () => {
    if (panel.hasChildNodes()) return;
    panel.append(
      field('group', CHOICES.group),
      field('sort', CHOICES.sort),
      field('density', CHOICES.density),
      field('room', { '': texts.allRooms }),
      field('state', STATES),
    );
  };
  const more = h(
    'button',
    {
      type: 'button',
      id: 'view-more',
      'aria-expanded': 'false',
      'aria-controls': 'view-panel',
      on: {
        click: () => {
          fillPanel();
          panel.hidden = !panel.hidden;
          more.setAttribute('aria-expanded', String(!panel.hidden));
        },
      },
    },
    texts.view,
  );
  const button = h('button', { type: 'button', id: 'choose', 'data-needs': '', on: { click: choose } }, texts.choose);
  host.append(search, more, button, panel);

  return {
    /** The rooms that can be chosen; a chosen one stays, even if nothing stands in it now. */
    rooms: (names) => {
      fillPanel();
      const all = [...new Set([...names, choice.room].filter(Boolean))].sort((a, b) => a.localeCompare(b));
      setOptions(selects.room, [
        { value: '', text: texts.allRooms },
        ...all.map((name) => ({ value: name, text: name })),
      ]);
      selects.room.value = choice.room;
      selects.room.closest('.field').hidden = all.length === 0;
    },
  };
}
