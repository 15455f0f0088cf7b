// When this container's alerts are raised: deadband, delays, priority, and whether a kind is in service.

import { api } from '../shared/api.js';
import { h, problemBox, whileBusy } from '../shared/dom.js';
import { kindFields, readRules } from './rule-fields.js';

/** @return its element, and what says it anew when the unit has changed */
export function alertRules(id) {
  const place = h('div');
  const details = h(
    'details',
    { id: 'rules', on: { toggle: () => details.open && show(id, place) } },
    h('summary', {}, 'Change when alerts are raised'),
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
    place.replaceChildren(form(id, place, await api.alertRules(id)));
  } catch (problem) {
    place.replaceChildren(problemBox(problem));
  }
}

function form(id, place, { rules }) {
  const output = h('div', { role: 'status' });
  const button = h('button', { type: 'submit', class: 'main' }, 'Keep these rules');
  const own = h(
    'form',
    {
      class: 'form',
      novalidate: true,
      on: {
        submit: (event) => {
          event.preventDefault();
          const { changes, problems } = readRules(rules, (name) => own.elements.namedItem(name));
          if (problems.length > 0)
            output.replaceChildren(problemBox({ message: 'Please look at this again:', problems }));
          else
            whileBusy(button, output, async () => {
              await api.changeAlertRules(id, changes);
              await show(id, place);
              place.append(h('p', { class: 'done', role: 'status' }, 'Kept.'));
            });
        },
      },
    },
    h(
      'p',
      { class: 'help' },
      'An empty field means the default, shown in grey. The limits of temperature, humidity and light stand with the band above.',
    ),
    Object.entries(rules).map(([kind, rule]) => kindFields(kind, rule)),
    output,
    button,
  );
  return own;
}
