// The parts of the forms that start a sowing.

import { h, problemBox, whileBusy } from '../shared/dom.js';

export function whole(raw, title) {
  const value = Number(raw.trim());
  if (!Number.isInteger(value) || value < 1) throw new Error(`${title}: a whole number, 1 or more, is missing.`);
  return value;
}

export function form(id, submit, fields, save) {
  const output = h('div', { class: 'output' });
  const button = h('button', { type: 'submit', class: 'main' }, submit);
  const element = h(
    'form',
    {
      id,
      class: 'form',
      novalidate: true,
      on: {
        submit: (event) => {
          event.preventDefault();
          whileBusy(button, output, () => save(Object.fromEntries(new FormData(element)), element)).catch((problem) =>
            output.replaceChildren(problemBox(problem)),
          );
        },
      },
    },
    fields,
    output,
    h('div', { class: 'actions' }, button),
  );
  return element;
}

let fieldCount = 0;

export function field(name, title, input, help) {
  const id = `start-field-${(fieldCount += 1)}`;
  input.id = id;
  input.name = name;
  if (help) input.setAttribute('aria-describedby', `${id}-help`);
  return h(
    'div',
    { class: 'field' },
    h('label', { for: id }, title),
    input,
    help && h('p', { class: 'help', id: `${id}-help` }, help),
  );
}

export const select = (name, title, options = []) =>
  field(
    name,
    title,
    h(
      'select',
      {},
      options.map((option) => h('option', { value: option.value }, option.text)),
    ),
  );
