// From nothing to a sowing: container, species, seed lot, sowing. Later the place to add more of each.

import { api } from '../shared/api.js';
import { containerForm } from '../shared/container-form.js';
import { byId, h, problemBox, setOptions, setText, whileBusy } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { viabilityWords } from './seed-words.js';
import { now } from '../shared/clock.js';
import { localTime } from './sheet.js';
import { uuid } from './unsent.js';

const FIGURES = [
  { key: 'base', title: 'Base temperature', help: 'Below this, seeds gain nothing.', degrees: true },
  { key: 'optimum', title: 'Best temperature', help: 'They germinate fastest at it.', degrees: true },
  { key: 'ceiling', title: 'Ceiling temperature', help: 'Above this, no more than at it.', degrees: true },
  { key: 'firstDays', title: 'First germinates after (days)', help: 'Tells when the first check is due.' },
  { key: 'giveUpDays', title: 'Usually given up after (days)', help: 'Six weeks are common practice.' },
  { key: 'fraction', title: 'Usually germinates (%)', help: 'Of the seeds sown.', percent: true },
  { key: 'rootCm', title: 'Potted on with roots of (cm)', help: '' },
  { key: 'keepsDays', title: 'Seed keeps (days)', help: 'How long after gathering; the lot counts it down.' },
];

/** @param done called with words after something was added */
export function makeStart({ host, done }) {
  const state = { tally: null };
  const container = step(
    'container',
    'A container',
    containerForm({
      id: 'tally-container',
      submit: 'Make the container',
      save: async (body, element) => {
        const made = await api.createContainer(body);
        element.reset();
        done(`Made: ${made.name}.`, 'lot');
      },
    }),
  );
  const species = step('species', 'A species', speciesPart());
  const lot = step('lot', 'A seed lot', lotForm());
  const sowing = step('sowing', 'A sowing', sowingForm());
  const steps = { container, species, lot, sowing };
  host.append(h('h2', { id: 'start-title' }), h('p', { id: 'start-lead', class: 'quiet' }), ...Object.values(steps));

  function speciesPart() {
    const place = h('div');
    const known = h('p', { id: 'known-species', class: 'quiet' });
    const pick = h('select', { id: 'species-to-change', on: { change: () => showForm() } });
    const showForm = () => {
      const found = state.tally?.species.find((one) => one.id === pick.value);
      place.replaceChildren(speciesForm(found, done));
    };
    showForm();
    return h(
      'div',
      {},
      known,
      h('div', { class: 'field' }, h('label', { for: 'species-to-change' }, 'New, or change one'), pick),
      place,
    );
  }

  function lotForm() {
    return form(
      'new-lot',
      'Add the lot',
      [
        select('species', 'Species'),
        field('seeds', 'Seeds gathered', h('input', { inputmode: 'numeric', autocomplete: 'off' })),
        field('gatheredAt', 'Gathered on', h('input', { type: 'date' })),
        select('from', 'Gathered from', [
          { value: 'ground', text: 'the ground' },
          { value: 'plant', text: 'the plant' },
          { value: 'unknown', text: 'not known' },
        ]),
        field(
          'kept',
          'How kept (optional)',
          h('input', { autocomplete: 'off', maxlength: 300 }),
          'For instance: moist sand, 5 °C.',
        ),
      ],
      async (typed, element) => {
        const seeds = whole(typed.seeds, 'Seeds gathered');
        const day = typed.gatheredAt || localTime(now()).slice(0, 10);
        const gathered = Math.min(Date.parse(`${day}T12:00:00`), now());
        await api.addLot({
          species: typed.species,
          seeds,
          gatheredAt: new Date(gathered).toISOString(),
          from: typed.from,
          kept: typed.kept.trim() || null,
        });
        element.reset();
        done('The lot is in.', 'sowing');
      },
    );
  }

  function sowingForm() {
    let key = uuid();
    const portions = h('div');
    const addPortion = () => {
      const number = portions.children.length + 1;
      portions.append(
        h(
          'div',
          { class: 'fields two' },
          select(`container${number}`, number === 1 ? 'Container' : `Container ${number}`, containerOptions()),
          field(
            `seeds${number}`,
            number === 1 ? 'Seeds in it' : `Seeds in container ${number}`,
            h('input', { inputmode: 'numeric', autocomplete: 'off' }),
          ),
        ),
      );
    };
    addPortion();
    return form(
      'new-sowing',
      'Write the sowing down',
      [
        select('lot', 'Seed lot'),
        portions,
        h('button', { type: 'button', class: 'plain', on: { click: addPortion } }, 'Also into another container'),
        field('at', 'Sown at (empty: now)', h('input', { type: 'datetime-local' })),
      ],
      async (typed, element) => {
        const groups = [];
        for (let i = 1; i <= portions.children.length; i += 1) {
          if (i === 1 || typed[`seeds${i}`].trim() !== '')
            groups.push({ container: typed[`container${i}`], seeds: whole(typed[`seeds${i}`], 'Seeds') });
        }
        await api.sow({
          entry: key,
          lot: Number(typed.lot),
          groups,
          at: typed.at ? new Date(typed.at).toISOString() : null,
        });
        key = uuid();
        element.reset();
        done('Sown. The next check is listed above.', null);
      },
    );
  }

  function containerOptions() {
    return (state.tally?.containers ?? []).map((one) => ({ value: one.id, text: one.name }));
  }

  function update(tally) {
    state.tally = tally;
    const empty = tally.sowings.length === 0;
    setText(byId('start-title'), empty ? 'Nothing sown yet' : 'Add more');
    setText(
      byId('start-lead'),
      empty ? 'Four steps to the first tally. A species that is there already need not be added.' : '',
    );
    const names = new Map(tally.species.map((one) => [one.id, one.name]));
    setText(byId('known-species'), `There already: ${tally.species.map((one) => one.name).join(', ') || 'none'}.`);
    setOptions(byId('species-to-change'), [
      { value: '', text: 'A new species' },
      ...tally.species.map((one) => ({ value: one.id, text: one.name })),
    ]);
    setOptions(
      byId('new-lot').elements.species,
      tally.species.map((one) => ({ value: one.id, text: one.name })),
    );
    setOptions(
      byId('new-sowing').elements.lot,
      tally.lots.map((one) => ({ value: String(one.id), text: lotWords(one, names) })),
    );
    for (const list of byId('new-sowing').querySelectorAll('select[name^=container]'))
      setOptions(list, containerOptions());
    markDone(container, tally.containers.length > 0 && f.count(tally.containers.length, 'container'));
    markDone(species, tally.species.length > 0 && `${tally.species.length} known`);
    markDone(lot, tally.lots.length > 0 && f.count(tally.lots.length, 'lot'));
    markDone(sowing, !empty && f.count(tally.sowings.length, 'sowing'));
  }

  /** Opens one step and closes the others, so that the way on is in sight. */
  function show(name) {
    for (const [key, element] of Object.entries(steps)) element.open = key === name;
  }

  return {
    update,
    show,
    next: (tally) =>
      show(
        tally.containers.length === 0
          ? 'container'
          : tally.lots.length === 0
            ? 'lot'
            : tally.sowings.length === 0
              ? 'sowing'
              : null,
      ),
  };
}

const lotWords = (lot, names) =>
  `${lot.name ?? names.get(lot.species) ?? lot.species}, lot ${lot.id}: ${lot.left} of ${lot.seeds} left${viabilityWords(lot.germinateIfSownNow) || freshWords(lot.freshness)}`;

export function freshWords(freshness) {
  if (!freshness) return '';
  const days = Math.floor(freshness.daysLeft);
  return days >= 0 ? `, keeps ${f.count(days, 'more day')}` : `, kept too long by ${f.count(-days, 'day')}`;
}

function step(name, title, content) {
  return h(
    'details',
    { class: 'start-step', id: `start-${name}` },
    h('summary', {}, title, h('span', { class: 'is-done' })),
    content,
  );
}

const markDone = (element, words) => setText(element.querySelector('.is-done'), words ? `✓ ${words}` : '');

function speciesForm(species, done) {
  const value = (figure) => {
    const known = species?.figures[figure.key]?.value;
    if (known === undefined || known === null) return '';
    return figure.degrees ? f.round(f.toUnit(known), 2) : figure.percent ? f.round(known * 100, 2) : known;
  };
  return form(
    'species-form',
    species ? 'Keep the changes' : 'Add the species',
    [
      field('name', 'Name', h('input', { value: species?.name ?? '', maxlength: 60, autocomplete: 'off' })),
      h(
        'details',
        {},
        h('summary', {}, 'What is usual for it (all optional)'),
        h(
          'div',
          { class: 'fields two' },
          FIGURES.map((figure) =>
            field(
              figure.key,
              figure.degrees ? `${figure.title} (${f.unitName()})` : figure.title,
              h('input', { inputmode: 'decimal', autocomplete: 'off', value: value(figure) }),
              figure.help,
            ),
          ),
        ),
        field(
          'source',
          'Where new figures come from',
          h('input', { value: 'common practice', maxlength: 300, autocomplete: 'off' }),
        ),
      ),
    ],
    async (typed, element) => {
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
  );
}

const inUnit = (figure, value) => (figure.degrees ? f.fromUnit(value) : figure.percent ? value / 100 : value);

function decimal(raw, title) {
  const value = Number(raw.replace(',', '.').replace('\u2212', '-'));
  if (!Number.isFinite(value)) throw new Error(`${title}: “${raw}” is not a number.`);
  return value;
}

function whole(raw, title) {
  const value = Number(raw.trim());
  if (!Number.isInteger(value) || value < 1) throw new Error(`${title}: a whole number, 1 or more, is missing.`);
  return value;
}

function form(id, submit, fields, save) {
  const output = h('div', { class: 'output' });
  const button = h('button', { type: 'submit', class: 'main' }, submit);
  const element = h(
    'form',
    {
      id,
      class: 'form',
      novalidate: true,
      on: {
        submit: (event) => {
          event.preventDefault();
          whileBusy(button, output, () => save(Object.fromEntries(new FormData(element)), element)).catch((problem) =>
            output.replaceChildren(problemBox(problem)),
          );
        },
      },
    },
    fields,
    output,
    h('div', { class: 'actions' }, button),
  );
  return element;
}

let fieldCount = 0;

function field(name, title, input, help) {
  const id = `start-field-${(fieldCount += 1)}`;
  input.id = id;
  input.name = name;
  if (help) input.setAttribute('aria-describedby', `${id}-help`);
  return h(
    'div',
    { class: 'field' },
    h('label', { for: id }, title),
    input,
    help && h('p', { class: 'help', id: `${id}-help` }, help),
  );
}

const select = (name, title, options = []) =>
  field(
    name,
    title,
    h(
      'select',
      {},
      options.map((option) => h('option', { value: option.value }, option.text)),
    ),
  );
