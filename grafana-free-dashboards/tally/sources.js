// Compares the germination of seeds in front of different heat sources.

import { api } from '../shared/api.js';
import { h, setOptions, table } from '../shared/dom.js';
import { field, form } from '../shared/form.js';
import * as f from '../shared/format.js';
import { sourcesWords } from './compare-words.js';

/** Heat sources of one species against each other, within the same lots. */
export function makeSources(host) {
  const result = h('div', { id: 'sources-result', role: 'status' });
  const pick = h('select', { id: 'sources-species' });
  host.append(
    h(
      'p',
      { class: 'quiet' },
      'Seeds of one lot on two heat sources are compared within the lot, over all lots and seasons.',
    ),
    form({ id: 'sources-form', content: field('Species', pick), submit: 'Compare', save: compare }),
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
