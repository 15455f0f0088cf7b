// The form for a species: new or changed.

import { api } from '../shared/api.js';
import { h } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { form, typedIn } from '../shared/form.js';
import { typedNumber } from '../shared/typed.js';
import { named } from './form-parts.js';

const FIGURES = [
  { key: 'base', title: 'Base temperature', help: 'Below this, seeds gain nothing.', degrees: true },
  { key: 'optimum', title: 'Best temperature', help: 'They germinate fastest at it.', degrees: true },
  { key: 'ceiling', title: 'Ceiling temperature', help: 'Above this, no more than at it.', degrees: true },
  { key: 'firstDays', title: 'First germinates after (days)', help: 'Tells when the first check is due.' },
  { key: 'giveUpDays', title: 'Usually given up after (days)', help: 'Six weeks are common practice.' },
  { key: 'fraction', title: 'Usually germinates (%)', help: 'Of the seeds sown.', percent: true },
  { key: 'rootCm', title: 'Potted on with roots of (cm)', help: '' },
  { key: 'keepsDays', title: 'Seed keeps (days)', help: 'Days after gathering. The lot shows the days left.' },
];

export function speciesForm(species, done) {
  const value = (figure) => {
    const known = species?.figures[figure.key]?.value;
    if (known === undefined || known === null) return '';
    return figure.degrees ? f.round(f.toUnit(known), 2) : figure.percent ? f.round(known * 100, 2) : known;
  };
  return form({
    id: 'species-form',
    submit: species ? 'Keep the changes' : 'Add the species',
    content: [
      named('name', 'Name', h('input', { value: species?.name ?? '', maxlength: 60, autocomplete: 'off' })),
      h(
        'details',
        {},
        h('summary', {}, 'What is usual for it (all optional)'),
        h(
          'div',
          { class: 'fields two' },
          FIGURES.map((figure) =>
            named(
              figure.key,
              figure.degrees ? `${figure.title} (${f.unitName()})` : figure.title,
              h('input', { inputmode: 'decimal', autocomplete: 'off', value: value(figure) }),
              figure.help,
            ),
          ),
        ),
        named(
          'source',
          'Where new figures come from',
          h('input', { value: 'common practice', maxlength: 300, autocomplete: 'off' }),
        ),
      ),
    ],
    save: async (element) => {
      const typed = typedIn(element);
      const figures = {};
      for (const figure of FIGURES) {
        const raw = typed[figure.key].trim();
        if (raw === '') continue;
        const unchanged = raw === String(value(figure));
        figures[figure.key] = unchanged
          ? species.figures[figure.key]
          : { value: inUnit(figure, decimal(raw, figure.title)), source: typed.source.trim() || 'own results' };
      }
      const body = { name: typed.name.trim(), figures };
      if (species) await api.changeSpecies(species.id, body);
      else await api.addSpecies(body);
      if (!species) element.reset();
      done(species ? 'Kept.' : `Added: ${body.name}.`, species ? 'species' : 'lot');
    },
  });
}

const inUnit = (figure, value) => (figure.degrees ? f.fromUnit(value) : figure.percent ? value / 100 : value);

function decimal(raw, title) {
  const value = typedNumber(raw);
  if (!Number.isFinite(value)) throw new Error(`${title}: “${raw}” is not a number.`);
  return value;
}
