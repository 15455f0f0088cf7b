// One container as a row or a tile, for many on one screen. The same element; the style sheet arranges it.

import { SIGNS, asHeard } from './card.js';
import { now } from './clock.js';
import { containerLink } from './container-link.js';
import { freshness, standing } from './container-words.js';
import { h, setText } from './dom.js';
import * as f from './format.js';

export function makeLine(container) {
  const id = `name-${container.id}`;
  return h(
    'article',
    { class: 'line', data: { container: container.id }, 'aria-labelledby': id },
    h('span', { class: 'sign', 'aria-hidden': 'true' }),
    h('h3', { id }, h('a', { class: 'name', href: containerLink(container.id) })),
    h('p', { class: 'state' }, h('strong', { class: 'word' }), ' ', h('span', { class: 'why' })),
    h('p', { class: 'values' }, h('span', { class: 'warm' }), h('span', { class: 'moist quiet' })),
  );
}

/** Updates what differs. */
export function updateLine(line, { container, maxGapMinutes, live = true }) {
  const at = now();
  const state = asHeard(standing(container, at, maxGapMinutes), live);
  if (line.dataset.level !== state.level) line.dataset.level = state.level;
  setText(line.querySelector('.name'), container.name);
  setText(line.querySelector('.sign'), SIGNS[state.level]);
  setText(line.querySelector('.word'), state.title);
  setText(line.querySelector('.why'), state.level === 'fine' ? (container.room ?? '') : state.lines[0]);
  setText(line.querySelector('.warm'), value(container, 'temperature', f.temperature, at, maxGapMinutes));
  setText(line.querySelector('.moist'), value(container, 'humidity', f.humidity, at, maxGapMinutes));
}

function value(container, quantity, show, at, maxGapMinutes) {
  const { state, latest } = freshness(container, quantity, at, maxGapMinutes);
  return state === 'fresh' ? show(latest.value) : f.UNKNOWN;
}
