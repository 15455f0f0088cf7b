// The form that says what a field or a byte of a message is.

import { h } from '../shared/dom.js';
import { field, form, typedIn } from '../shared/form.js';
import { selectOf } from './select.js';
import { quantityOf } from '../shared/fault-words.js';
import { texts } from './texts.js';

/** The form that says what a field or a byte is. */
export function choiceForm({ selected, packed }, units, { use, drop }) {
  const isByte = selected.index !== undefined;
  const unit = h('select', { name: 'unit' });
  const quantity = h(
    'select',
    { name: 'quantity' },
    units.map((one) => h('option', { value: one.quantity }, quantityOf(one.quantity))),
    isByte || selected.field.pointer === '' ? [] : h('option', { value: 'at' }, texts.time),
  );
  const showUnits = () => {
    const own = units.find((one) => one.quantity === quantity.value)?.units ?? [];
    unit.replaceChildren(...own.map((symbol) => h('option', { value: symbol }, symbol)));
    unit.disabled = own.length === 0;
  };
  quantity.addEventListener('change', showUnits);
  showUnits();
  const most = isByte ? Math.min(4, packed.length - selected.index) : 0;
  const lengths = Array.from({ length: most }, (_, i) => ({ value: String(i + 1), text: String(i + 1) }));
  const packedFields = isByte && [
    field(texts.bytes, selectOf(lengths, String(Math.min(2, most)), { name: 'length' })),
    field(
      texts.order,
      selectOf(
        [
          { value: 'big', text: texts.highByteFirst },
          { value: 'little', text: texts.lowByteFirst },
        ],
        'big',
        { name: 'order' },
      ),
    ),
    field(
      texts.sign,
      selectOf(
        [
          { value: 'false', text: texts.neverNegative },
          { value: 'true', text: texts.canBeNegative },
        ],
        'false',
        { name: 'signed' },
      ),
    ),
  ];
  const name = isByte ? texts.fromByte(selected.index) : selected.field.name;
  return h(
    'div',
    { class: 'choice' },
    form({
      id: 'use',
      content: [
        h('h3', {}, name),
        h(
          'div',
          { class: 'fields' },
          field(texts.quantity, quantity),
          field(texts.unit, unit),
          packedFields || [],
          field(texts.times, h('input', { name: 'factor', inputmode: 'decimal', placeholder: '1' })),
          field(texts.plus, h('input', { name: 'plus', inputmode: 'decimal', placeholder: '0' })),
        ),
      ],
      submit: texts.use,
      plain: true,
      other: h('button', { type: 'button', class: 'plain', on: { click: drop } }, texts.leaveOut),
      save: (element) => use(quantity.value, valueOf(selected, typedIn(element))),
    }),
  );
}

/** A value of a rule. A decimal comma counts as a point. */
export function valueOf({ field: chosen, index }, { unit, length, order, signed, factor, plus }) {
  const value = { unit, factor: number(texts.times, factor), plus: number(texts.plus, plus) };
  if (index === undefined) return { ...value, pointer: chosen.pointer };
  return { ...value, firstByte: index, length: Number(length), order, signed: signed === 'true' };
}

function number(label, text) {
  const plain = text.trim().replace(',', '.');
  if (plain === '') return null;
  const value = Number(plain);
  if (!Number.isFinite(value)) throw new Error(texts.mustBeANumberSuch(label, text));
  return value;
}
