// The fields that correct the guesses about an imported file, and the profiles that fill them.

import { api } from '../shared/api.js';
import { actionButton, announce, h, setOptions } from '../shared/dom.js';
import { field, typedIn } from '../shared/form.js';
import { choicesOf, typedOf } from './import-words.js';

let profiles = [];

/** Offers the profiles in an import. */
export function setProfiles(item, kept) {
  profiles = kept;
  const names = kept.map(({ name }) => ({ value: name, text: name }));
  setOptions(item.querySelector('.profile'), [{ value: '', text: 'None' }, ...names]);
}

/** Choice of a profile, which fills the fields; saving and deleting one. `formOf` gives the form; `reload` loads the profiles. */
export function profileFields(output, formOf, reload) {
  const select = h('select', {
    class: 'profile',
    on: {
      change: () =>
        fill(
          formOf(),
          profiles.find(({ name }) => name === select.value),
        ),
    },
  });
  const name = h('input', { class: 'profile-name', autocomplete: 'off', maxlength: 40 });
  const save = async () => {
    if (name.value.trim() === '') throw new Error('Name the profile first.');
    await api.saveImportProfile(name.value.trim(), choicesOf(typedIn(formOf())));
    await reload();
    select.value = name.value.trim();
    announce(`The profile ${select.value} is saved.`);
  };
  const remove = async () => {
    if (select.value === '') throw new Error('Choose the profile first.');
    await api.removeImportProfile(select.value);
    await reload();
  };
  return h(
    'div',
    { class: 'fields' },
    field('Profile', select),
    h('div', { class: 'actions' }, actionButton({ class: 'remove-profile' }, 'Delete profile', output, remove)),
    field('Save as', name, 'Keeps the fields below under this name. A profile of that name is replaced.'),
    h('div', { class: 'actions' }, actionButton({ class: 'save-profile' }, 'Save profile', output, save)),
  );
}

function fill(choices, profile) {
  if (!profile) return;
  Object.entries(typedOf(profile.choices)).forEach(([name, text]) => (choices.elements[name].value = text));
  choices.querySelector('.profile-name').value = profile.name;
  choices.requestSubmit();
}

export function choiceFields() {
  const options = (pairs) => pairs.map(([value, text]) => h('option', { value }, text));
  const orders = [
    ['', 'Guess'],
    ['dmy', 'Day first'],
    ['mdy', 'Month first'],
    ['ymd', 'Year first'],
  ];
  const decimals = [
    ['', 'Guess'],
    ['comma', 'Comma'],
    ['point', 'Point'],
  ];
  return [
    field('Sensor', h('input', { name: 'sensor', autocomplete: 'off' })),
    field('Time zone', h('input', { name: 'zone', autocomplete: 'off', placeholder: 'Europe/Berlin' })),
    field('Date order', h('select', { name: 'dateOrder' }, options(orders))),
    field('Decimal sign', h('select', { name: 'decimal' }, options(decimals))),
    field('Delimiter', h('input', { name: 'delimiter', autocomplete: 'off', placeholder: 'semicolon' })),
    field('Header line', h('input', { name: 'headerLine', type: 'number', min: 1 })),
    field('Encoding', h('input', { name: 'encoding', autocomplete: 'off', placeholder: 'UTF-8' })),
    field(
      'Columns',
      h('textarea', { name: 'columns', rows: 3, placeholder: '2=temperature:F' }),
      'One column a line: its number or header, = and time, clock, sensor, ignore, or a quantity with unit and sensor.',
    ),
  ];
}
