// The table that says the same as a germination curve.

import { h } from '../shared/dom.js';
import { texts } from './texts.js';

export const unfolded = (content) =>
  h('details', {}, h('summary', {}, texts.theSameAsATable), h('div', { class: 'table-place' }, content));
