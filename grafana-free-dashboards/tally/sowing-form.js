// The form for a sowing: one lot into one or more containers.

import { api } from '../shared/api.js';
import { h } from '../shared/dom.js';
import { form, typedIn } from '../shared/form.js';
import { named, select, whole } from './form-parts.js';
import { uuid } from './unsent.js';

/**
 * @param containerOptions the containers to choose from, asked for each new line
 * @param done called with words after the sowing was added
 */
export function sowingForm(containerOptions, done) {
  let key = uuid();
  const portions = h('div');
  const addPortion = () => {
    const number = portions.children.length + 1;
    portions.append(
      h(
        'div',
        { class: 'fields two' },
        select(`container${number}`, number === 1 ? 'Container' : `Container ${number}`, containerOptions()),
        named(
          `seeds${number}`,
          number === 1 ? 'Seeds in it' : `Seeds in container ${number}`,
          h('input', { inputmode: 'numeric', autocomplete: 'off' }),
        ),
      ),
    );
  };
  addPortion();
  return form({
    id: 'new-sowing',
    submit: 'Write the sowing down',
    content: [
      select('lot', 'Seed lot'),
      portions,
      h('button', { type: 'button', class: 'plain', on: { click: addPortion } }, 'Also into another container'),
      named('at', 'Sown at (empty: now)', h('input', { type: 'datetime-local' })),
    ],
    save: async (element) => {
      const typed = typedIn(element);
      const groups = [];
      for (let i = 1; i <= portions.children.length; i += 1) {
        if (i === 1 || typed[`seeds${i}`].trim() !== '')
          groups.push({ container: typed[`container${i}`], seeds: whole(typed[`seeds${i}`], 'Seeds') });
      }
      await api.sow({
        entry: key,
        lot: Number(typed.lot),
        groups,
        at: typed.at ? new Date(typed.at).toISOString() : null,
      });
      key = uuid();
      element.reset();
      done('Sown. The next check is listed above.', null);
    },
  });
}
