// When this container's alerts are raised: deadband, delays, priority, and whether a kind is in service.

import { api } from '../shared/api.js';
import { h, problemBox } from '../shared/dom.js';
import { form, Problems } from '../shared/form.js';
import { kindFields, readRules } from './rule-fields.js';
import { texts } from './texts.js';

/** Returns its element and a function that draws it again after a change of the unit. */
export function alertRules(id) {
  const place = h('div');
  const details = h(
    'details',
    { id: 'rules', on: { toggle: () => details.open && show(id, place) } },
    h('summary', {}, texts.changeWhenAlertsAreRaised),
    place,
  );
  if (location.hash === '#rules') {
    details.open = true;
    requestAnimationFrame(() => details.scrollIntoView());
  }
  return { element: details, redraw: () => details.open && show(id, place) };
}

async function show(id, place) {
  try {
    place.replaceChildren(rulesForm(id, place, await api.alertRules(id)));
  } catch (problem) {
    place.replaceChildren(problemBox(problem));
  }
}

function rulesForm(id, place, { rules }) {
  return form({
    content: [
      h('p', { class: 'help' }, texts.anEmptyFieldMeansThe),
      Object.entries(rules).map(([kind, rule]) => kindFields(kind, rule)),
    ],
    submit: texts.keepTheseRules,
    output: h('div', { role: 'status' }),
    save: async (element) => {
      const { changes, problems } = readRules(rules, (name) => element.elements.namedItem(name));
      if (problems.length > 0) throw new Problems(problems);
      await api.changeAlertRules(id, changes);
      await show(id, place);
      place.append(h('p', { class: 'done', role: 'status' }, texts.kept));
    },
  });
}
