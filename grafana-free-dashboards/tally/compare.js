// Two sowings against each other, with what the counts cannot tell.

import { api } from '../shared/api.js';
import { byId, h, setOptions, table, whileBusy } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { comparisonWords, sourcesWords } from './seed-words.js';

/** @param nameOf(sowing) as a reader knows it */
export function makeComparison(host, nameOf) {
  let sowings = [];
  const result = h('div', { id: 'comparison', role: 'status' });
  const output = h('div');
  const picks = ['first', 'second'].map((which) => h('select', { id: `compare-${which}` }));
  const button = h('button', { type: 'submit', class: 'main' }, 'Compare');
  host.append(
    h(
      'form',
      {
        class: 'form',
        id: 'compare-form',
        on: {
          submit: (event) => {
            event.preventDefault();
            whileBusy(button, output, compare);
          },
        },
      },
      h(
        'div',
        { class: 'fields two' },
        picks.map((pick, i) =>
          h('div', { class: 'field' }, h('label', { for: pick.id }, i === 0 ? 'This sowing' : 'with this one'), pick),
        ),
      ),
      output,
      h('div', { class: 'actions' }, button),
    ),
    result,
  );

  async function compare() {
    result.replaceChildren();
    const chosen = picks.map((pick) => sowings.find((one) => String(one.id) === pick.value));
    const told = await api.compareGermination(chosen[0].id, chosen[1].id);
    const words = comparisonWords(told, chosen.map(nameOf));
    result.replaceChildren(
      h('p', { class: 'headline' }, words.headline),
      ...words.lines.map((line) => h('p', {}, line)),
    );
  }

  return {
    update(next) {
      sowings = next;
      byId('compare-part').hidden = sowings.length < 2;
      const options = sowings.map((one) => ({ value: String(one.id), text: nameOf(one) }));
      const fresh = picks[1].options.length < 2;
      picks.forEach((pick) => setOptions(pick, options));
      if (fresh && options.length > 1) picks[1].value = options[1].value;
    },
  };
}

/** Heat sources of one species against each other, within the same lots. */
export function makeSources(host) {
  const result = h('div', { id: 'sources-result', role: 'status' });
  const output = h('div');
  const pick = h('select', { id: 'sources-species' });
  const button = h('button', { type: 'submit', class: 'main' }, 'Compare');
  host.append(
    h(
      'p',
      { class: 'quiet' },
      'Seeds of one lot on two heat sources are compared within the lot, over all lots and seasons.',
    ),
    h(
      'form',
      {
        class: 'form',
        id: 'sources-form',
        on: {
          submit: (event) => {
            event.preventDefault();
            whileBusy(button, output, compare);
          },
        },
      },
      h('div', { class: 'field' }, h('label', { for: pick.id }, 'Species'), pick),
      output,
      h('div', { class: 'actions' }, button),
    ),
    result,
  );

  async function compare() {
    result.replaceChildren();
    const { pairs } = await api.compareHeatSources(pick.value);
    result.replaceChildren(
      ...(pairs.length === 0
        ? [
            h('p', { class: 'headline' }, 'Nothing to compare yet.'),
            h(
              'p',
              {},
              'It takes one lot with seeds on two heat sources, each looked at once. Groups that changed the source, or were split or joined, are left out.',
            ),
          ]
        : pairs.flatMap(sourcePair)),
    );
  }

  return {
    update({ species, sowings }) {
      const sown = new Set(sowings.map((one) => one.species));
      const shown = species.filter((one) => sown.has(one.id));
      host.hidden = shown.length === 0;
      setOptions(
        pick,
        shown.map((one) => ({ value: one.id, text: one.name })),
      );
    },
  };
}

function sourcePair(pair) {
  const words = sourcesWords(pair);
  const side = ({ germinated, sown, containers }) =>
    `${f.number(germinated)} of ${f.number(sown)} (${f.count(containers, 'container')})`;
  return [
    h('p', { class: 'headline' }, words.headline),
    ...words.lines.map((line) => h('p', {}, line)),
    h(
      'details',
      {},
      h('summary', {}, 'The lots counted'),
      h(
        'div',
        { class: 'table-place' },
        table(
          'Germinated, by lot and heat source',
          [
            { title: 'Lot', cell: (one) => (one.name ? `${one.name} (lot ${one.lot})` : `lot ${one.lot}`) },
            { title: pair.first, cell: (one) => side(one.first) },
            { title: pair.second, cell: (one) => side(one.second) },
          ],
          pair.lots,
        ),
      ),
    ),
  ];
}
