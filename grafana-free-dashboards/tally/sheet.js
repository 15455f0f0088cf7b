// The sheet over the page in which seeds are counted and moved: large plus and minus buttons, one at a time.

import { byId, h, problemBox, whileBusy } from '../shared/dom.js';
import { CULL_REASONS } from './seed-words.js';

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
      button('−', 'One fewer', -1),
      input,
      button('+', 'One more', 1),
    ),
  };
}

/**
 * Opens the sheet.
 * @param title, lead in words; @param content elements; @param save resolves to words of trouble, or to nothing when done
 */
export function openSheet({ title, lead, content, submit = 'Write it down', save }) {
  const sheet = byId('sheet');
  const output = h('div');
  const button = h('button', { type: 'submit', class: 'main' }, submit);
  const form = h(
    'form',
    {
      class: 'form',
      novalidate: true,
      on: {
        submit: (event) => {
          event.preventDefault();
          whileBusy(button, output, async () => {
            const trouble = await save();
            if (trouble) output.replaceChildren(problemBox({ message: trouble }));
            else sheet.close();
          });
        },
      },
    },
    content,
    output,
    h(
      'div',
      { class: 'actions' },
      h('button', { type: 'button', on: { click: () => sheet.close() } }, 'Cancel'),
      button,
    ),
  );
  sheet.replaceChildren(
    h('h2', { id: 'sheet-title', tabindex: '-1' }, title),
    (lead && h('p', { class: 'there' }, lead)) || '',
    form,
  );
  if (!sheet.open) sheet.showModal();
  byId('sheet-title').focus();
}

/**
 * What a check counts.
 * @param group ungerminated and germinated seeds there before, null where not known; @param check what to start from
 */
export function checkFields(group, check = {}) {
  const lines = [];
  const culledHost = h('div');
  const culled = (had) => lines.filter((line) => line.had() === had).reduce((sum, line) => sum + line.count.read(), 0);
  const room = {
    germinated: () => (group ? group.ungerminated - culled(false) : Infinity),
    culled: (had) =>
      group
        ? had
          ? group.germinated + germinated.read() - potted.read()
          : group.ungerminated - germinated.read()
        : Infinity,
    potted: () => (group ? group.germinated + germinated.read() - culled(true) : Infinity),
  };
  const germinated = counter('Newly germinated', {
    name: 'germinated',
    value: check.germinated,
    most: room.germinated,
  });
  const potted = counter('Potted on', { name: 'pottedOn', value: check.pottedOn, most: room.potted });

  const roots = rootsField(check.rootLengthsCm ?? []);

  function addLine(line = {}) {
    const number = lines.length + 1;
    const reason = h(
      'select',
      { name: 'reason', 'aria-label': `Why culled, ${number}` },
      Object.entries(CULL_REASONS).map(([value, word]) =>
        h('option', { value, selected: value === line.reason }, word),
      ),
    );
    const box = h('input', { type: 'checkbox', checked: Boolean(line.germinated) });
    const had = () => box.checked;
    const others = () => culled(had()) - count.read();
    const count = counter('Culled', { name: 'culled', value: line.count, most: () => room.culled(had()) - others() });
    lines.push({ count, reason, had });
    culledHost.append(
      count.element,
      h('div', { class: 'cull-more' }, reason, h('label', { class: 'check-box' }, box, 'had germinated before')),
    );
  }
  for (const line of check.culled?.length > 0 ? check.culled : [{}]) addLine(line);

  const read = () => ({
    germinated: germinated.read(),
    culled: lines
      .filter((line) => line.count.read() > 0)
      .map((line) => ({ count: line.count.read(), reason: line.reason.value, germinated: line.had() })),
    pottedOn: potted.read(),
    rootLengthsCm: roots.read(),
  });
  const more = h(
    'button',
    { type: 'button', class: 'plain', on: { click: () => addLine() } },
    'Culled for another reason too',
  );
  return { read, elements: [germinated.element, culledHost, more, potted.element], roots: roots.element };
}

/** Root lengths of a check, cm, in the order in which they were measured. */
function rootsField(lengths) {
  const input = h('input', {
    id: 'sheet-roots',
    name: 'rootLengthsCm',
    inputmode: 'text',
    autocomplete: 'off',
    value: lengths.join('; '),
  });
  return {
    read: () => readLengths(input.value),
    element: h(
      'div',
      { class: 'field' },
      h('label', { for: 'sheet-roots' }, 'Root lengths (cm, optional)'),
      input,
      h('p', { class: 'help' }, 'One for each seed measured: 2.5; 3; 4'),
    ),
  };
}

/** Numbers apart by a semicolon, or by a space with or without a comma before it; a comma within a number is a decimal point. */
export function readLengths(text) {
  return text
    .split(/[;\s]+|,\s+/)
    .map((part) => part.replace(/,$/, ''))
    .filter((part) => part !== '')
    .map((part) => {
      const length = Number(part.replace(',', '.'));
      if (!(length >= 0 && length <= 200)) throw new Error(`Root lengths: “${part}” is not a length in cm.`);
      return length;
    });
}

export function remarkField() {
  const input = h('textarea', { name: 'remark', rows: 2, maxlength: 2000, id: 'sheet-remark' });
  return {
    read: () => input.value.trim() || null,
    element: h('div', { class: 'field' }, h('label', { for: 'sheet-remark' }, 'Remark (optional)'), input),
  };
}

/** When it was done, if not now: a field that starts empty. */
export function whenField(label = 'Not now, but at', value = '') {
  const input = h('input', { type: 'datetime-local', name: 'at', id: 'sheet-at', value });
  return {
    input,
    read: () => (input.value === '' ? null : new Date(input.value).toISOString()),
    element: h('div', { class: 'field' }, h('label', { for: 'sheet-at' }, label), input),
  };
}

/** An instant as such a field wants it, in the browser's zone. */
export function localTime(at) {
  const date = new Date(at);
  return new Date(date.getTime() - date.getTimezoneOffset() * 60_000).toISOString().slice(0, 16);
}
