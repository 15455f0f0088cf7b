// Compares two sowings.

import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';
import { byId, h, setOptions } from '../shared/dom.js';
import { field, form } from '../shared/form.js';
import * as t from '../shared/time-format.js';
import { comparisonWords } from './compare-words.js';
import { texts } from './texts.js';

/**
 * @param nameOf gives the display name of a sowing; @param names the name of a container, by its id
 */
export function makeComparison(host, nameOf, names) {
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

  /** The containers in which its seeds are or were last, and the day of the sowing. */
  function withPlaceAndDay(sowing) {
    const places = [...new Set(sowing.groups.map((group) => names(group.container)))];
    return texts.sowingInSown(nameOf(sowing), places.join(', '), t.moment(sowing.at, now()));
  }

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
      const options = sowings.map((one) => ({ value: String(one.id), text: withPlaceAndDay(one) }));
      const fresh = picks[1].options.length < 2;
      picks.forEach((pick) => setOptions(pick, options));
      if (fresh && options.length > 1) picks[1].value = options[1].value;
    },
  };
}
