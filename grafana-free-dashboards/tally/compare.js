// Compares two sowings.

import { api } from '../shared/api.js';
import { byId, h, setOptions } from '../shared/dom.js';
import { field, form } from '../shared/form.js';
import { comparisonWords } from './compare-words.js';
import { texts } from './texts.js';

/** @param nameOf gives the display name of a sowing */
export function makeComparison(host, nameOf) {
  let sowings = [];
  const result = h('div', { id: 'comparison', role: 'status' });
  const picks = ['first', 'second'].map((which) => h('select', { id: `compare-${which}` }));
  host.append(
    form({
      id: 'compare-form',
      content: h('div', { class: 'fields two' }, field(texts.thisSowing, picks[0]), field(texts.withThisOne, picks[1])),
      submit: texts.compare,
      save: compare,
    }),
    result,
  );

  async function compare() {
    result.replaceChildren();
    const chosen = picks.map((pick) => sowings.find((one) => String(one.id) === pick.value));
    if (chosen[0] === chosen[1]) throw new Error(texts.chooseTwoDifferentSowings);
    const comparison = await api.compareGermination(chosen[0].id, chosen[1].id);
    const words = comparisonWords(comparison, chosen.map(nameOf));
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
