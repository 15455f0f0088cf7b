// The parts of the page Mapping rules: levels of the topic, tree of fields, row of bytes.

import { h } from '../shared/dom.js';
import { field } from '../shared/form.js';
import { selectOf } from './select.js';
import { encodingOf } from './rule.js';
import { texts } from './texts.js';

const ROLES = [
  { value: 'same', text: texts.same },
  { value: 'sensor', text: texts.sensor },
  { value: 'any', text: texts.any },
];
const ENCODINGS = [
  { value: 'hex', text: texts.hexadecimal },
  { value: 'base64', text: texts.base64 },
];

/** One choice for each level of the topic. */
export function levelParts(levels, setRole) {
  return levels.map(({ name, role }, i) =>
    field(name || texts.empty, selectOf(ROLES, role, { on: { change: (event) => setRole(i, event.target.value) } })),
  );
}

/** The tree of the message. A text that may be packed bytes has a second button. */
export function fieldParts({ fields, selected, at }, { useOf, select, unpack }) {
  return fields.map((one) => {
    const item = h('li', { class: one.value === undefined ? 'branch' : null });
    item.style.setProperty('--depth', one.depth);
    if (one.value === undefined) {
      item.append(one.name);
      return item;
    }
    const use = one.pointer === at && at ? 'time' : useOf(one.pointer);
    item.append(
      h(
        'button',
        { type: 'button', 'aria-pressed': String(selected?.field === one), on: { click: () => select(one) } },
        `${one.name}: ${one.value}`,
        use && h('span', { class: 'use' }, ` → ${use}`),
      ),
      encodingOf(one.value)
        ? h(
            'button',
            { type: 'button', class: 'plain', on: { click: () => unpack(one) } },
            texts.unpackBytesOf(one.name),
          )
        : '',
    );
    return item;
  });
}

/** The bytes as buttons, with their index. */
export function byteParts({ bytes, packed, selected }, { useOf, select, setEncoding }) {
  const row = packed.map((byte, i) => {
    const use = useOf(i);
    return h(
      'button',
      {
        type: 'button',
        class: 'byte',
        'aria-label': texts.byte(i),
        'aria-pressed': String(selected?.index === i),
        on: { click: () => select(i) },
      },
      byte.toString(16).padStart(2, '0'),
      h('small', {}, i),
      use && h('span', { class: 'use' }, use),
    );
  });
  const encoding =
    bytes.encoding === 'raw'
      ? []
      : [
          field(
            texts.encoding,
            selectOf(ENCODINGS, bytes.encoding, { on: { change: (event) => setEncoding(event.target.value) } }),
          ),
        ];
  return [...encoding, h('p', { class: 'help' }, texts.tapTheFirstByteOf), h('div', { class: 'byte-row' }, row)];
}
