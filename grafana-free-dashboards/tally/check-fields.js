// The fields of a check: germinated, culled, potted on, root lengths.

import { h } from '../shared/dom.js';
import { CULL_REASONS } from './seed-words.js';
import { counter } from './sheet.js';
import { texts } from './texts.js';

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
  const germinated = counter(texts.newlyGerminated, {
    name: 'germinated',
    value: check.germinated,
    most: room.germinated,
  });
  const potted = counter(texts.pottedOn, { name: 'pottedOn', value: check.pottedOn, most: room.potted });

  const roots = rootsField(check.rootLengthsCm ?? []);

  function addLine(line = {}) {
    const number = lines.length + 1;
    const reason = h(
      'select',
      { name: 'reason', 'aria-label': texts.whyCulled(number) },
      Object.entries(CULL_REASONS).map(([value, word]) =>
        h('option', { value, selected: value === line.reason }, word),
      ),
    );
    const box = h('input', { type: 'checkbox', checked: Boolean(line.germinated) });
    const had = () => box.checked;
    const others = () => culled(had()) - count.read();
    const count = counter(texts.culled, {
      name: 'culled',
      value: line.count,
      most: () => room.culled(had()) - others(),
    });
    lines.push({ count, reason, had });
    culledHost.append(
      count.element,
      h('div', { class: 'cull-more' }, reason, h('label', { class: 'check-box' }, box, texts.hadGerminatedBefore)),
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
    texts.culledForAnotherReasonToo,
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
      h('label', { for: 'sheet-roots' }, texts.rootLengthsCmOptional),
      input,
      h('p', { class: 'help' }, texts.oneForEachSeedMeasured),
    ),
  };
}

/** Reads numbers separated by semicolons or spaces. A comma within a number is a decimal point. */
export function readLengths(text) {
  return text
    .split(/[;\s]+|,\s+/)
    .map((part) => part.replace(/,$/, ''))
    .filter((part) => part !== '')
    .map((part) => {
      const length = Number(part.replace(',', '.'));
      if (!(length >= 0 && length <= 200)) throw new Error(texts.rootLengthsIsNotA(part));
      return length;
    });
}
