// A select with its options.

import { h } from '../shared/dom.js';

/** @param options each with `value` and `text`; @param chosen the value that is selected */
export function selectOf(options, chosen, props) {
  return h(
    'select',
    props,
    options.map(({ value, text }) => h('option', { value, selected: value === chosen }, text)),
  );
}
