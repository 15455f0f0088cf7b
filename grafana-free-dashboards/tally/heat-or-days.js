// Heat or days? For each species that was sown: what its germination follows, and above which temperature.

import { api } from '../shared/api.js';
import { DROP_95, profileLines } from './course.js';
import { byId, h, reconcile, setText, svg, table } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { degrees, noHeatWords, thermalTimeWords } from './heat-words.js';
import { plot, ticksOf } from './plot.js';
import { viabilityPanel } from './seed-words.js';

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
    /** Asks again for what is unfolded: entries or the unit have changed. */
    refresh() {
      for (const panel of list.querySelectorAll('details[open]')) fill(panel.dataset.species, panel.lastElementChild);
    },
  };
}

/** Which question about a place is the newest: an older answer that comes later is not drawn. */
const newest = new WeakMap();

async function fill(species, place) {
  const mine = {};
  newest.set(place, mine);
  if (!place.firstChild) place.replaceChildren(h('p', { class: 'loading' }, 'Working it out …'));
  try {
    const [told, keeping] = await Promise.all([api.thermalTime(species), api.viability(species)]);
    if (newest.get(place) === mine) place.replaceChildren(...verdictPanel(told), ...keepingPanel(keeping));
  } catch (problem) {
    place.replaceChildren(h('p', { class: 'caution', role: 'status' }, noHeatWords(problem)));
  }
}

function verdictPanel(told) {
  const words = thermalTimeWords(told);
  return [
    h('p', { class: 'headline', data: { verdict: told.verdict } }, words.headline),
    h(
      'dl',
      { class: 'measures' },
      words.rows.flatMap(([title, value]) => [h('dt', {}, title), h('dd', {}, value)]),
    ),
    ...likelihood(told),
  ];
}

function keepingPanel(told) {
  const words = viabilityPanel(told);
  return [
    h('h4', {}, 'Days kept before sowing'),
    h('p', { class: 'headline' }, words.headline),
    h(
      'dl',
      { class: 'measures' },
      words.rows.flatMap(([title, value]) => [h('dt', {}, title), h('dd', {}, value)]),
    ),
    words.note && h('p', { class: 'quiet' }, words.note),
    told.groups.length > 0 &&
      h(
        'details',
        {},
        h('summary', {}, 'The sowings counted'),
        h(
          'div',
          { class: 'table-place' },
          table(
            'Sowings by days kept',
            [
              { title: 'Lot', cell: (one) => `lot ${one.lot}` },
              { title: 'Days kept', class: 'number', cell: (one) => f.number(one.days, 1) },
              {
                title: 'Germinated',
                class: 'number',
                cell: (one) => `${f.number(one.germinated)} of ${f.number(one.seeds)}`,
              },
            ],
            told.groups,
          ),
        ),
      ),
  ].filter(Boolean);
}

function likelihood({ base, baseByLikelihood: { identified, base: best, interval, profile } }) {
  const shape = profileLines(profile);
  if (!shape) return [];
  const bases = profile.map((one) => one.base);
  const [from, to] = [Math.min(...bases), Math.max(...bases)];
  const [low, high] = interval ?? [null, null];
  const description = identified
    ? `Highest at ${degrees(best)}; those above the line fit the counts too.`
    : 'It is too flat, or too one-sided, to tell the base temperature.';
  return [
    h(
      'figure',
      { class: 'curve-figure' },
      plot({
        title: 'How well each base temperature fits the counts',
        description,
        x: {
          from,
          to,
          title: `base temperature, ${f.unitName()}`,
          ticks: ticksOf(f.toUnit(from), f.toUnit(to), 6).map((shown) => ({
            at: f.fromUnit(shown),
            text: f.number(shown, Number.isInteger(shown) ? 0 : 1),
          })),
        },
        y: {
          from: shape.lowest,
          to: 0.3,
          ticks: [
            { at: 0, text: 'best' },
            { at: -DROP_95, text: '95 %' },
          ],
        },
        draw: (place) => [
          identified &&
            svg('rect', {
              class: 'between',
              x: place.x(low ?? from),
              y: place.top,
              width: place.x(high ?? to) - place.x(low ?? from),
              height: place.bottom - place.top,
            }),
          svg('line', {
            class: 'limit',
            x1: place.left,
            x2: place.right,
            y1: place.y(-DROP_95),
            y2: place.y(-DROP_95),
          }),
          svg('line', { class: 'used', x1: place.x(base), x2: place.x(base), y1: place.top, y2: place.bottom }),
          shape.lines.map((line) => svg('polyline', { class: 'least', points: place.points(line) })),
          identified && svg('circle', { class: 'peak', cx: place.x(best), cy: place.y(0), r: 4 }),
        ],
      }),
    ),
    h(
      'p',
      { class: 'quiet' },
      `The higher, the better that base fits all counts. What lies above the dashed line is not ruled out (95 %). Dotted: the base in use, ${degrees(base)}. ${identified ? '' : description}`,
    ),
    h(
      'details',
      {},
      h('summary', {}, 'The same as a table'),
      h(
        'div',
        { class: 'table-place' },
        table(
          'Likelihood of each base temperature',
          [
            { title: 'Base', cell: (one) => degrees(one.base) },
            {
              title: 'Log-likelihood',
              class: 'number',
              cell: (one) => (one.logLikelihood === null ? 'impossible' : f.number(one.logLikelihood, 2)),
            },
          ],
          profile,
        ),
      ),
    ),
  ];
}
