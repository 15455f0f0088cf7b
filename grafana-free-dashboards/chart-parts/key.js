// Names the lines of a chart, each with a sample of its line.

import { h } from '../shared/dom.js';

export const keyOf = (sets, spec) =>
  sets.map((set, i) => h('span', { class: 'key-entry' }, swatch(spec.series[i]), set.name));

/** @param line {color, dash} */
export function swatch({ color, dash }) {
  const element = h('span', { class: 'swatch', 'aria-hidden': 'true' });
  element.style.borderTopColor = `var(${color})`;
  element.style.borderTopStyle = dash ? (dash[0] <= 2 ? 'dotted' : 'dashed') : 'solid';
  return element;
}
