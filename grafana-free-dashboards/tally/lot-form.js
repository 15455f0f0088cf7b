// The form for a seed lot.

import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';
import { h } from '../shared/dom.js';
import { form, typedIn } from '../shared/form.js';
import { named, select, whole } from './form-parts.js';
import { dayKey, typedTime } from '../shared/time-format.js';
import { texts } from './texts.js';

/** @param done called with words after the lot was added */
export function lotForm(done) {
  return form({
    id: 'new-lot',
    submit: texts.addTheLot,
    content: [
      select('species', texts.species),
      named('seeds', texts.seedsGathered, h('input', { inputmode: 'numeric', autocomplete: 'off' })),
      named('gatheredAt', texts.gatheredOn, h('input', { type: 'date' })),
      select('from', texts.gatheredFrom, [
        { value: 'ground', text: texts.theGround },
        { value: 'plant', text: texts.thePlant },
        { value: 'unknown', text: texts.notKnown },
      ]),
      named(
        'kept',
        texts.howKeptOptional,
        h('input', { autocomplete: 'off', maxlength: 300 }),
        texts.forInstanceMoistSand5,
      ),
      named('name', texts.nameOptional, h('input', { autocomplete: 'off', maxlength: 60 })),
      named(
        'accession',
        texts.accessionNumber,
        h('input', { autocomplete: 'off', maxlength: 60 }),
        texts.theNumberInTheSeed,
      ),
      h('p', { class: 'caution' }, texts.someTreesAreProtectedAnd),
    ],
    save: async (element) => {
      const typed = typedIn(element);
      const seeds = whole(typed.seeds, texts.seedsGathered);
      const day = typed.gatheredAt || dayKey(now());
      const gathered = Math.min(typedTime(`${day}T12:00`), now());
      await api.addLot({
        species: typed.species,
        seeds,
        gatheredAt: new Date(gathered).toISOString(),
        from: typed.from,
        kept: typed.kept.trim() || null,
        name: typed.name.trim() || null,
        accession: typed.accession.trim() || null,
      });
      element.reset();
      done(texts.theLotIsIn, 'sowing');
    },
  });
}
