// One figure on a card: title, value, age.

import { setAge } from './ages.js';
import { freshness, whyUnknown } from './container-words.js';
import { h, setText } from './dom.js';
import * as f from './format.js';
import { texts } from './texts.js';

export function tile(key, title) {
  return h(
    'div',
    { class: `tile ${key}` },
    h('dt', {}, title),
    h(
      'dd',
      {},
      h('span', { class: 'figure', data: { value: key } }, f.UNKNOWN),
      h('span', { class: 'last' }),
      h('time', { class: 'age' }),
      h('span', { class: 'note' }),
    ),
  );
}

export function updateTile(card, container, quantity, at, maxGapMinutes) {
  const part = card.querySelector(`.tile.${quantity.key}`);
  const { state, latest } = freshness(container, quantity.key, at, maxGapMinutes);
  part.dataset.state = state;
  part.hidden = state === 'none' && !quantity.always;
  setText(part.querySelector('.figure'), state === 'fresh' ? quantity.show(latest.value) : f.UNKNOWN);
  setText(part.querySelector('.last'), state === 'old' ? texts.last(quantity.show(latest.value)) : '');
  setAge(part.querySelector('.age'), latest?.at);
  setText(part.querySelector('.note'), state === 'none' ? whyUnknown(container, quantity.key) : '');
}
