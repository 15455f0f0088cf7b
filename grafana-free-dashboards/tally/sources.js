// Compares the germination of seeds in front of different heat sources.

import { api } from '../shared/api.js';
import { h, setOptions, table } from '../shared/dom.js';
import { field, form } from '../shared/form.js';
import * as f from '../shared/format.js';
import { sourcesWords } from './compare-words.js';
import { texts } from './texts.js';

/** Heat sources of one species against each other, within the same lots. */
export function makeSources(host) {
  const result = h('div', { id: 'sources-result', role: 'status' });
  const pick = h('select', { id: 'sources-species' });
  host.append(
    h('p', { class: 'quiet' }, texts.seedsOfOneLotOn),
    form({ id: 'sources-form', content: field(texts.species, pick), submit: texts.compare, save: compare }),
    result,
  );

  async function compare() {
    result.replaceChildren();
    const { pairs } = await api.compareHeatSources(pick.value);
    result.replaceChildren(
      ...(pairs.length === 0
        ? [h('p', { class: 'headline' }, texts.nothingToCompareYet), h('p', {}, texts.itTakesOneLotWith)]
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
    texts.ofWord3(f.number(germinated), f.number(sown), f.count(containers, texts.containerCount));
  return [
    h('p', { class: 'headline' }, words.headline),
    ...words.lines.map((line) => h('p', {}, line)),
    h(
      'details',
      {},
      h('summary', {}, texts.theLotsCounted),
      h(
        'div',
        { class: 'table-place' },
        table(
          texts.germinatedByLotAndHeat,
          [
            { title: texts.lot, cell: (one) => (one.name ? texts.lot3(one.name, one.lot) : texts.lot2(one.lot)) },
            { title: pair.first, cell: (one) => side(one.first) },
            { title: pair.second, cell: (one) => side(one.second) },
          ],
          pair.lots,
        ),
      ),
    ),
  ];
}
