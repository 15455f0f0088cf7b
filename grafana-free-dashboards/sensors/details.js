// The form for the name and the note of a sensor, and for the voltage of its empty cells.

import { api } from '../shared/api.js';
import { h } from '../shared/dom.js';
import { field, fillUntouched, form, Problems } from '../shared/form.js';
import { typedNumber } from '../shared/typed.js';

const FIELDS = ['name', 'note', 'emptyVolts'];

export function makeDetails(key, known) {
  const element = form({
    id: 'describe',
    plain: true,
    content: h(
      'div',
      { class: 'fields' },
      field('Name', h('input', { name: 'name', maxlength: 60, autocomplete: 'off' }), 'The name in its topic stays.'),
      field('Note', h('input', { name: 'note', maxlength: 500, autocomplete: 'off' })),
      field(
        'Cells empty at (V)',
        h('input', { name: 'emptyVolts', inputmode: 'decimal', autocomplete: 'off' }),
        'Empty: 3.3 V. Two AA cells: about 2.1 V.',
      ),
    ),
    submit: 'Keep',
    output: h('div', { role: 'status' }),
    save: async (made, output) => {
      const typed = made.elements;
      const raw = typed.emptyVolts.value.trim();
      const emptyVolts = raw === '' ? null : typedNumber(raw);
      if (Number.isNaN(emptyVolts)) throw new Problems([`“${raw}” is not a number.`]);
      known.changed([await api.describeSensor(key, { name: typed.name.value, note: typed.note.value, emptyVolts })]);
      for (const one of FIELDS) typed[one].defaultValue = typed[one].value;
      output.replaceChildren(h('p', { class: 'done' }, 'Kept.'));
    },
  });

  return {
    element,
    update: (sensor) => {
      for (const name of FIELDS) fillUntouched(element.elements[name], sensor[name]);
    },
  };
}
