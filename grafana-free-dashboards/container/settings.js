// Changing a container, its sensors' corrections, and taking it off the shelf.

import { api } from '../shared/api.js';
import { containerForm } from '../shared/container-form.js';
import { actionButton, byId, h } from '../shared/dom.js';
import { alertRules } from './alert-rules.js';
import { texts } from './texts.js';

export function makeSettings(container, changed) {
  const form = () =>
    containerForm({
      id: 'edit-container',
      container: latest,
      submit: texts.keepTheseSettings,
      save: async (body, own) => {
        latest = await api.changeContainer(latest.id, body);
        changed(latest);
        own
          .querySelector('.output')
          .replaceChildren(h('p', { class: 'done', role: 'status' }, texts.keptAllFiguresFollowAlso));
      },
    });
  let latest = container;
  const place = h('div');
  const edit = h(
    'details',
    { on: { toggle: () => edit.open && place.replaceChildren(form()) } },
    h('summary', {}, texts.changeNameBandOrHow),
    place,
  );
  const rules = alertRules(container.id);
  byId('settings').append(edit, rules.element, removal(container.id));
  return {
    update: (next) => {
      latest = next;
    },
    /** The unit has changed: the fields must say the same temperatures anew. */
    redraw: () => {
      if (edit.open) place.replaceChildren(form());
      rules.redraw();
    },
  };
}

/** Removal takes two presses. The second button says what is removed and what is kept. */
function removal(id) {
  const output = h('div');
  const really = actionButton({}, texts.yesRemoveIt, output, async () => {
    await api.removeContainer(id);
    location.assign('/');
  });
  return h(
    'details',
    {},
    h('summary', {}, texts.removeThisContainer),
    h('p', {}, texts.itLeavesTheShelfThe),
    output,
    h('div', { class: 'actions' }, really),
  );
}
