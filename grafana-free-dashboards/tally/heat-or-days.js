// Heat or days? For each species that was sown: what its germination follows, and above which temperature.

import { api } from '../shared/api.js';
import { byId, h, reconcile, setText, table } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { noHeatWords, thermalTimeWords } from './heat-words.js';
import { likelihood } from './likelihood.js';
import { viabilityPanel } from './viability-words.js';
import { texts } from './texts.js';

/** One panel for each species, worked out when it is unfolded. */
export function makeHeatOrDays(host) {
  const list = h('div', {});
  host.append(list);

  function makePanel(species) {
    const place = h('div', { class: 'thermal-time' });
    const details = h(
      'details',
      {
        class: 'start-step',
        data: { species: species.id },
        on: { toggle: () => details.open && fill(species.id, place) },
      },
      h('summary', {}),
      place,
    );
    return details;
  }

  return {
    update({ species, sowings }) {
      const sown = new Set(sowings.map((one) => one.species));
      const shown = species.filter((one) => sown.has(one.id));
      byId('heat-or-days-part').hidden = shown.length === 0;
      reconcile(
        list,
        shown,
        (one) => one.id,
        makePanel,
        (panel, one) => setText(panel.firstElementChild, one.name),
      );
    },
    /** Reloads the unfolded panels after a change of entries or unit. */
    refresh() {
      for (const panel of list.querySelectorAll('details[open]')) fill(panel.dataset.species, panel.lastElementChild);
    },
  };
}

/** The newest request for each place. Answers to older requests are not drawn. */
const newest = new WeakMap();

async function fill(species, place) {
  const mine = {};
  newest.set(place, mine);
  if (!place.firstChild) place.replaceChildren(h('p', { class: 'loading' }, texts.workingItOut));
  try {
    const [result, keeping] = await Promise.all([api.thermalTime(species), api.viability(species)]);
    if (newest.get(place) === mine) place.replaceChildren(...verdictPanel(result), ...keepingPanel(keeping));
  } catch (problem) {
    place.replaceChildren(h('p', { class: 'caution', role: 'status' }, noHeatWords(problem)));
  }
}

function verdictPanel(result) {
  const words = thermalTimeWords(result);
  return [
    h('p', { class: 'headline', data: { verdict: result.verdict } }, words.headline),
    h(
      'dl',
      { class: 'measures' },
      words.rows.flatMap(([title, value]) => [h('dt', {}, title), h('dd', {}, value)]),
    ),
    ...likelihood(result),
  ];
}

function keepingPanel(result) {
  const words = viabilityPanel(result);
  return [
    h('h4', {}, texts.daysKeptBeforeSowing),
    h('p', { class: 'headline' }, words.headline),
    h(
      'dl',
      { class: 'measures' },
      words.rows.flatMap(([title, value]) => [h('dt', {}, title), h('dd', {}, value)]),
    ),
    words.note && h('p', { class: 'quiet' }, words.note),
    result.groups.length > 0 &&
      h(
        'details',
        {},
        h('summary', {}, texts.theSowingsCounted),
        h(
          'div',
          { class: 'table-place' },
          table(
            texts.sowingsByDaysKept,
            [
              { title: texts.lot, cell: (one) => texts.lot2(one.lot) },
              { title: texts.daysKept, class: 'number', cell: (one) => f.number(one.days, 1) },
              {
                title: texts.germinated3,
                class: 'number',
                cell: (one) => texts.ofWord2(f.number(one.germinated), f.number(one.seeds)),
              },
            ],
            result.groups,
          ),
        ),
      ),
  ].filter(Boolean);
}
