// The form that changes the topics of an account.

import { api } from '../shared/api.js';
import { h, whileBusy } from '../shared/dom.js';
import { topicsOf } from './account-words.js';
import { texts } from './texts.js';

const field = (id, label) => {
  const input = h('input', { id, autocomplete: 'off', autocapitalize: 'off', spellcheck: 'false' });
  return { input, element: h('div', { class: 'field' }, h('label', { for: id }, label), input) };
};

/**
 * A folded form.
 *
 * @param current returns the account as it is now; read when the form is unfolded
 * @param output where a failure is shown
 * @param changed is called after a change
 */
export function topicsForm(name, current, output, changed) {
  const topics = field(`topics-of-${name}`, texts.topicsToPublish);
  const reads = field(`reads-of-${name}`, texts.topicsToRead);
  const save = h('button', { type: 'submit' }, texts.saveTopics);
  const submit = (event) => {
    event.preventDefault();
    whileBusy(save, output, async () => {
      await api.changeSensorTopics(name, {
        topics: topicsOf(topics.input.value) ?? [],
        reads: topicsOf(reads.input.value) ?? [],
      });
      details.open = false;
      await changed();
    });
  };
  const fill = () => {
    if (!details.open) return;
    topics.input.value = current().topics.join(' ');
    reads.input.value = current().reads.join(' ');
  };
  const details = h(
    'details',
    { class: 'wide', on: { toggle: fill } },
    h('summary', { 'aria-label': texts.changeTopicsOf(name) }, texts.changeTopics),
    h(
      'form',
      { class: 'form', novalidate: '', on: { submit } },
      h('div', { class: 'fields' }, topics.element, reads.element),
      h('div', { class: 'actions' }, save),
    ),
  );
  return details;
}
