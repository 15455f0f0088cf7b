// The form for a sowing: one lot into one or more containers.

import { api } from '../shared/api.js';
import { h } from '../shared/dom.js';
import { form, typedIn } from '../shared/form.js';
import { named, select, whole } from './form-parts.js';
import { uuid } from './unsent.js';
import { typedTime } from '../shared/time-format.js';
import { texts } from './texts.js';

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
        select(`container${number}`, number === 1 ? texts.container : texts.container2(number), containerOptions()),
        named(
          `seeds${number}`,
          number === 1 ? texts.seedsInIt : texts.seedsInContainer(number),
          h('input', { inputmode: 'numeric', autocomplete: 'off' }),
        ),
      ),
    );
  };
  addPortion();
  return form({
    id: 'new-sowing',
    submit: texts.writeTheSowingDown,
    content: [
      select('lot', texts.seedLot),
      portions,
      h('button', { type: 'button', class: 'plain', on: { click: addPortion } }, texts.alsoIntoAnotherContainer),
      named('name', texts.nameOptional, h('input', { autocomplete: 'off', maxlength: 60 })),
      named('at', texts.sownAtEmptyNow, h('input', { type: 'datetime-local' })),
    ],
    save: async (element) => {
      const typed = typedIn(element);
      const groups = [];
      for (let i = 1; i <= portions.children.length; i += 1) {
        if (i === 1 || typed[`seeds${i}`].trim() !== '')
          groups.push({ container: typed[`container${i}`], seeds: whole(typed[`seeds${i}`], texts.seeds) });
      }
      await api.sow({
        entry: key,
        lot: Number(typed.lot),
        name: typed.name.trim() || null,
        groups,
        at: typed.at ? new Date(typedTime(typed.at)).toISOString() : null,
      });
      key = uuid();
      element.reset();
      done(texts.sownTheNextCheckIs, null);
    },
  });
}
