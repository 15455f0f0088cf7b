// The form for a species: new or changed.

import { api } from '../shared/api.js';
import { h } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { form, typedIn } from '../shared/form.js';
import { fieldNumber, typedNumber } from '../shared/typed.js';
import { named } from './form-parts.js';
import { texts } from './texts.js';

const FIGURES = [
  { key: 'base', title: texts.baseTemperature2, help: texts.belowThisSeedsGainNothing, degrees: true },
  { key: 'optimum', title: texts.bestTemperature, help: texts.theyGerminateFastestAtIt, degrees: true },
  { key: 'ceiling', title: texts.ceilingTemperature, help: texts.aboveThisNoMoreThan, degrees: true },
  { key: 'firstDays', title: texts.firstGerminatesAfterDays, help: texts.tellsWhenTheFirstCheck },
  { key: 'giveUpDays', title: texts.usuallyGivenUpAfterDays, help: texts.sixWeeksAreCommonPractice },
  { key: 'fraction', title: texts.usuallyGerminates, help: texts.ofTheSeedsSown, percent: true },
  { key: 'rootCm', title: texts.pottedOnWithRootsOf, help: '' },
  { key: 'keepsDays', title: texts.seedKeepsDays, help: texts.daysAfterGatheringTheLot },
];

export function speciesForm(species, done) {
  const value = (figure) => {
    const known = species?.figures[figure.key]?.value;
    if (known === undefined || known === null) return '';
    return fieldNumber(figure.degrees ? f.round(f.toUnit(known), 2) : figure.percent ? f.round(known * 100, 2) : known);
  };
  return form({
    id: 'species-form',
    submit: species ? texts.keepTheChanges : texts.addTheSpecies,
    content: [
      named('name', texts.name, h('input', { value: species?.name ?? '', maxlength: 60, autocomplete: 'off' })),
      h(
        'details',
        {},
        h('summary', {}, texts.whatIsUsualForIt),
        h(
          'div',
          { class: 'fields two' },
          FIGURES.map((figure) =>
            named(
              figure.key,
              figure.degrees ? `${figure.title} (${f.unitName()})` : figure.title,
              h('input', {
                inputmode: 'decimal',
                autocomplete: 'off',
                value: value(figure),
                data: figure.percent && { entered: 'percent' },
              }),
              figure.help,
            ),
          ),
        ),
        named(
          'source',
          texts.whereNewFiguresComeFrom,
          h('input', { value: texts.commonPractice, maxlength: 300, autocomplete: 'off' }),
        ),
      ),
    ],
    save: async (element) => {
      const typed = typedIn(element);
      const figures = {};
      for (const figure of FIGURES) {
        const raw = typed[figure.key].trim();
        if (raw === '') continue;
        const unchanged = raw === value(figure);
        figures[figure.key] = unchanged
          ? species.figures[figure.key]
          : { value: inUnit(figure, decimal(raw, figure.title)), source: typed.source.trim() || texts.ownResults };
      }
      const body = { name: typed.name.trim(), figures };
      if (species) await api.changeSpecies(species.id, body);
      else await api.addSpecies(body);
      if (!species) element.reset();
      done(species ? texts.kept : texts.added(body.name), species ? 'species' : 'lot');
    },
  });
}

const inUnit = (figure, value) => (figure.degrees ? f.fromUnit(value) : figure.percent ? value / 100 : value);

function decimal(raw, title) {
  const value = typedNumber(raw);
  if (!Number.isFinite(value)) throw new Error(texts.isNotANumber(title, raw));
  return value;
}
