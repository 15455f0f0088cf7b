// The fields of the forms that start a sowing.

import { h } from '../shared/dom.js';
import { field } from '../shared/form.js';
import { texts } from './texts.js';

export function whole(raw, title) {
  const value = Number(raw.trim());
  if (!Number.isInteger(value) || value < 1) throw new Error(texts.aWholeNumber1Or(title));
  return value;
}

/** A field whose input has a name. */
export function named(name, title, input, help) {
  input.name = name;
  return field(title, input, help);
}

export const select = (name, title, options = []) =>
  named(
    name,
    title,
    h(
      'select',
      {},
      options.map((option) => h('option', { value: option.value }, option.text)),
    ),
  );
