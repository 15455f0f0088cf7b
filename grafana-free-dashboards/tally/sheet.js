// The sheet over the page in which seeds are counted and moved: large plus and minus buttons, one at a time.

import { byId, h } from '../shared/dom.js';
import { field, form } from '../shared/form.js';
import { typedTime } from '../shared/time-format.js';
import { texts } from './texts.js';

const HOLD_MS = 500;
let counters = 0;

/** A number with a minus and a plus button, which never leave the range. */
export function counter(label, { value = 0, most = () => Infinity, name, changed = () => {} }) {
  const id = `counter-${(counters += 1)}`;
  const input = h('input', {
    id,
    name,
    type: 'number',
    inputmode: 'numeric',
    min: 0,
    step: 1,
    value,
    on: { input: () => changed(), focus: () => input.select() },
  });
  const read = () => Math.max(0, Math.trunc(Number(input.value)) || 0);
  const step = (by) => {
    const next = read() + by;
    if (next < 0 || (by > 0 && next > most())) return;
    input.value = next;
    changed();
  };
  const button = (sign, word, by) =>
    h(
      'button',
      { type: 'button', 'aria-label': `${word} ${label.toLowerCase()}`, on: { click: () => step(by) } },
      sign,
    );
  return {
    read,
    input,
    element: h(
      'div',
      { class: 'counter', data: { counter: name } },
      h('label', { for: id }, label),
      button('−', texts.oneFewer, -1),
      input,
      button('+', texts.oneMore, 1),
    ),
  };
}

/**
 * Opens the sheet.
 * @param title, lead texts; @param content elements
 * @param save function; resolves to an error text, or to nothing on success
 * @param stop as a part of a round: `place` in it, buttons `skip` and `stop`, words `submit`, and `saved`, which is called
 *   after the sheet has closed
 */
export function openSheet({ title, lead, content, submit = texts.writeItDown, save, stop = null }) {
  const sheet = byId('sheet');
  const cancel = h('button', { type: 'button', on: { click: () => sheet.close() } }, texts.cancel);
  const sheetForm = form({
    content,
    submit: stop?.submit ?? submit,
    output: h('div'),
    other: stop?.skip ?? cancel,
    save: async () => {
      const trouble = await save();
      if (trouble) throw new Error(trouble);
      sheet.close();
      stop?.saved();
    },
  });
  sheet.classList.toggle('night', stop !== null);
  sheet.replaceChildren(
    stop ? h('div', { class: 'round-head' }, h('p', { class: 'place' }, stop.place), stop.stop) : '',
    h('h2', { id: 'sheet-title', tabindex: '-1' }, title),
    (lead && h('p', { class: 'there' }, lead)) || '',
    sheetForm,
  );
  if (!sheet.open) sheet.showModal();
  byId('sheet-title').focus();
  if (stop) holdBack(sheetForm.querySelector('[type=submit]'));
}

/** The next check opens under the thumb that wrote the last one down: a second press must not count as one. */
function holdBack(button) {
  button.disabled = true;
  setTimeout(() => (button.disabled = false), HOLD_MS);
}

export function remarkField() {
  const input = h('textarea', { name: 'remark', rows: 2, maxlength: 2000, id: 'sheet-remark' });
  return {
    read: () => input.value.trim() || null,
    element: h('div', { class: 'field' }, h('label', { for: 'sheet-remark' }, texts.remarkOptional), input),
  };
}

/** When it was done, if not now: a field that starts empty. */
export function whenField(label = texts.notNowButAt, value = '') {
  const input = h('input', { type: 'datetime-local', name: 'at', id: 'sheet-at', value });
  return {
    input,
    read: () => (input.value === '' ? null : new Date(typedTime(input.value)).toISOString()),
    element: field(label, input),
  };
}
