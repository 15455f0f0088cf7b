// The form for the name and the note of a sensor, and for the voltage of its empty cells.

import { api } from '../shared/api.js';
import { h } from '../shared/dom.js';
import { field, fillUntouched, form, Problems } from '../shared/form.js';
import { fieldNumber, typedNumber } from '../shared/typed.js';
import { texts } from './texts.js';

const FIELDS = ['name', 'note', 'emptyVolts'];

export function makeDetails(key, known) {
  const element = form({
    id: 'describe',
    plain: true,
    content: h(
      'div',
      { class: 'fields' },
      field(texts.name, h('input', { name: 'name', maxlength: 60, autocomplete: 'off' }), texts.theNameInItsTopic),
      field(texts.note, h('input', { name: 'note', maxlength: 500, autocomplete: 'off' })),
      field(
        texts.cellsEmptyAtV,
        h('input', { name: 'emptyVolts', inputmode: 'decimal', autocomplete: 'off' }),
        texts.empty33VTwo,
      ),
    ),
    submit: texts.keep,
    output: h('div', { role: 'status' }),
    save: async (made, output) => {
      const typed = made.elements;
      const raw = typed.emptyVolts.value.trim();
      const emptyVolts = raw === '' ? null : typedNumber(raw);
      if (Number.isNaN(emptyVolts)) throw new Problems([texts.isNotANumber(raw)]);
      known.changed([await api.describeSensor(key, { name: typed.name.value, note: typed.note.value, emptyVolts })]);
      for (const one of FIELDS) typed[one].defaultValue = typed[one].value;
      output.replaceChildren(h('p', { class: 'done' }, texts.kept));
    },
  });

  return {
    element,
    update: (sensor) => {
      for (const name of FIELDS)
        fillUntouched(element.elements[name], name === 'emptyVolts' ? fieldNumber(sensor[name]) : sensor[name]);
    },
  };
}
