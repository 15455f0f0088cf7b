// Compares two sowings.

import { api } from '../shared/api.js';
import { byId, h, setOptions, whileBusy } from '../shared/dom.js';
import { comparisonWords } from './compare-words.js';

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
