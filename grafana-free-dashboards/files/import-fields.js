// The fields that correct the guesses about an imported file, and the profiles that fill them.

import { api } from '../shared/api.js';
import { actionButton, announce, h, setOptions } from '../shared/dom.js';
import { field, typedIn } from '../shared/form.js';
import { choicesOf, typedOf } from './import-words.js';
import { texts } from './texts.js';

let profiles = [];

/** Offers the profiles in an import. */
export function setProfiles(item, kept) {
  profiles = kept;
  const names = kept.map(({ name }) => ({ value: name, text: name }));
  setOptions(item.querySelector('.profile'), [{ value: '', text: texts.none }, ...names]);
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
    if (name.value.trim() === '') throw new Error(texts.nameTheProfileFirst);
    await api.saveImportProfile(name.value.trim(), choicesOf(typedIn(formOf())));
    await reload();
    select.value = name.value.trim();
    announce(texts.theProfileIsSaved(select.value));
  };
  const remove = async () => {
    if (select.value === '') throw new Error(texts.chooseTheProfileFirst);
    await api.removeImportProfile(select.value);
    await reload();
  };
  return h(
    'div',
    { class: 'fields' },
    field(texts.profile, select),
    h('div', { class: 'actions' }, actionButton({ class: 'remove-profile' }, texts.deleteProfile, output, remove)),
    field(texts.saveAs, name, texts.keepsTheFieldsBelowUnder),
    h('div', { class: 'actions' }, actionButton({ class: 'save-profile' }, texts.saveProfile, output, save)),
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
    ['', texts.guess],
    ['dmy', texts.dayFirst],
    ['mdy', texts.monthFirst],
    ['ymd', texts.yearFirst],
  ];
  const decimals = [
    ['', texts.guess],
    ['comma', texts.comma],
    ['point', texts.point],
  ];
  return [
    field(texts.sensor2, h('input', { name: 'sensor', autocomplete: 'off' })),
    field(texts.timeZone, h('input', { name: 'zone', autocomplete: 'off', placeholder: 'Europe/Berlin' })),
    field(texts.dateOrder, h('select', { name: 'dateOrder' }, options(orders))),
    field(texts.decimalSign, h('select', { name: 'decimal' }, options(decimals))),
    field(texts.delimiter, h('input', { name: 'delimiter', autocomplete: 'off', placeholder: texts.semicolon })),
    field(texts.headerLine, h('input', { name: 'headerLine', type: 'number', min: 1 })),
    field(texts.encoding, h('input', { name: 'encoding', autocomplete: 'off', placeholder: 'UTF-8' })),
    field(
      texts.columns,
      h('textarea', { name: 'columns', rows: 3, placeholder: texts.exampleOfAColumn }),
      texts.oneColumnALineIts,
    ),
  ];
}
