// The list of all settings: a row for each, and its form while it is being changed.

import { api } from '../shared/api.js';
import { actionButton, h, reconcile, setText } from '../shared/dom.js';
import { form } from '../shared/form.js';
import { inputOf } from './fields.js';
import { texts } from './texts.js';
import { byGroup, stateWords, typedValue, valueWords } from './words.js';

/** @param changed gets the answer of the service after a change */
export function drawList(place, settings, changed) {
  reconcile(
    place,
    byGroup(settings),
    ({ group }) => group,
    ({ title }) => h('section', {}, h('h3', {}, title), h('ul')),
    (section, group) =>
      reconcile(
        section.querySelector('ul'),
        group.settings,
        ({ name }) => name,
        makeRow,
        (row, setting) => updateRow(row, setting, changed),
      ),
  );
}

function makeRow({ name }) {
  return h(
    'li',
    { data: { setting: name } },
    h(
      'div',
      {},
      h('p', {}, h('code', {}, name), ' ', h('span', { class: 'value' })),
      h('p', { class: 'meaning' }),
      h('p', { class: 'place' }),
    ),
    h('div', { class: 'actions' }),
  );
}

function updateRow(row, setting, changed) {
  setText(row.querySelector('.value'), valueWords(setting));
  setText(row.querySelector('.meaning'), setting.meaning);
  setText(row.querySelector('.place'), stateWords(setting));
  const actions = row.querySelector('.actions');
  if (row.querySelector('form')) return;
  const open = h(
    'button',
    {
      type: 'button',
      'aria-label': texts.changeOf(setting.name),
      on: { click: () => openForm(row, setting, changed) },
    },
    texts.change,
  );
  actions.replaceChildren(...(setting.changeable ? [open] : []));
}

function openForm(row, setting, changed) {
  const input = inputOf(setting);
  input.setAttribute('aria-label', setting.name);
  const output = h('div', { class: 'output' });
  const send = async (value) => {
    const answer = await api.changeSettings({ [setting.name]: value });
    close();
    changed(answer);
    row.querySelector('.actions button')?.focus();
  };
  const close = () => element.remove();
  const cancel = () => {
    close();
    updateRow(row, setting, changed);
    row.querySelector('.actions button')?.focus();
  };
  const element = form({
    content: input,
    submit: texts.save,
    plain: true,
    output,
    save: () => send(typedValue(setting, input.value)),
    other: [
      h('button', { type: 'button', class: 'plain', on: { click: cancel } }, texts.cancel),
      setting.set && actionButton({ class: 'plain' }, texts.useDefault, output, () => send(null)),
    ],
  });
  row.querySelector('.actions').replaceChildren();
  row.append(element);
  input.focus();
}
