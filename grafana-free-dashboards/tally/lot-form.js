// The form for a seed lot.

import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';
import { h } from '../shared/dom.js';
import { form, typedIn } from '../shared/form.js';
import { named, select, whole } from './form-parts.js';
import { localTime } from './sheet.js';

/** @param done called with words after the lot was added */
export function lotForm(done) {
  return form({
    id: 'new-lot',
    submit: 'Add the lot',
    content: [
      select('species', 'Species'),
      named('seeds', 'Seeds gathered', h('input', { inputmode: 'numeric', autocomplete: 'off' })),
      named('gatheredAt', 'Gathered on', h('input', { type: 'date' })),
      select('from', 'Gathered from', [
        { value: 'ground', text: 'the ground' },
        { value: 'plant', text: 'the plant' },
        { value: 'unknown', text: 'not known' },
      ]),
      named(
        'kept',
        'How kept (optional)',
        h('input', { autocomplete: 'off', maxlength: 300 }),
        'For instance: moist sand, 5 °C.',
      ),
      h(
        'p',
        { class: 'caution' },
        'Some trees are protected, and collecting seed may need a permit. Ask the owner of the land, and look up the law before you gather.',
      ),
    ],
    save: async (element) => {
      const typed = typedIn(element);
      const seeds = whole(typed.seeds, 'Seeds gathered');
      const day = typed.gatheredAt || localTime(now()).slice(0, 10);
      const gathered = Math.min(Date.parse(`${day}T12:00:00`), now());
      await api.addLot({
        species: typed.species,
        seeds,
        gatheredAt: new Date(gathered).toISOString(),
        from: typed.from,
        kept: typed.kept.trim() || null,
      });
      element.reset();
      done('The lot is in.', 'sowing');
    },
  });
}
