// What is compared, and over which time: kept in the address, offered as boxes and buttons.

import { byId, h } from '../shared/dom.js';
import { sourcesOf } from './words.js';
import { texts } from './texts.js';

const SPANS = [
  { key: '3d', title: texts.n3Days, days: 3 },
  { key: '7d', title: texts.n7Days, days: 7 },
  { key: '4wk', title: texts.n4Weeks, days: 28 },
  { key: 'all', title: texts.all, days: null },
];
export function fromAddress() {
  const query = new URLSearchParams(location.search);
  const sources = query.getAll('source');
  return {
    by: sources.length > 0 ? 'sources' : 'containers',
    keys: sources.length > 0 ? sources : query.getAll('container'),
    span: SPANS.find((one) => one.key === query.get('span')) ?? SPANS[2],
  };
}

export function toAddress(choice) {
  const query = new URLSearchParams();
  for (const key of choice.keys) query.append(choice.by === 'sources' ? 'source' : 'container', key);
  query.set('span', choice.span.key);
  history.replaceState(null, '', `?${query}`);
}

/** Two sources where there are two, else the first two containers. */
export function firstChoice(containers) {
  const sources = sourcesOf(containers).sort((a, b) => b.count - a.count);
  return sources.length >= 2
    ? { by: 'sources', keys: sources.slice(0, 2).map((one) => one.name) }
    : { by: 'containers', keys: containers.slice(0, 2).map((one) => one.id) };
}

/** @param choose, chooseSpan called when something else is chosen */
export function drawChoice(containers, choice, { choose, chooseSpan }) {
  const option = (by, key, text) =>
    h(
      'label',
      { class: 'choice' },
      h('input', {
        type: 'checkbox',
        name: by,
        value: key,
        checked: choice.by === by && choice.keys.includes(key),
        on: { change: (event) => choose(by, key, event.target.checked) },
      }),
      text,
    );
  const sources = sourcesOf(containers);
  byId('sources').hidden = sources.length < 2;
  fill(
    byId('sources').querySelector('.choices'),
    sources.map(({ name, count }) => option('sources', name, `${name} (${count})`)),
  );
  fill(
    byId('containers').querySelector('.choices'),
    containers.map(({ id, name }) => option('containers', id, name)),
  );
  fill(
    byId('span').querySelector('.presets'),
    SPANS.map((one) =>
      h(
        'button',
        { type: 'button', 'aria-pressed': String(one === choice.span), on: { click: () => chooseSpan(one) } },
        one.title,
      ),
    ),
  );
}

/** Puts new children in place of the old, and the focus back where it was. */
function fill(place, children) {
  const focused = [...place.children].findIndex((child) => child.contains(document.activeElement));
  place.replaceChildren(...children);
  if (focused >= 0) (place.children[focused]?.querySelector('input') ?? place.children[focused])?.focus();
}
