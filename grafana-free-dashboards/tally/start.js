// From nothing to a sowing: container, species, seed lot, sowing. Later the place to add more of each.

import { api } from '../shared/api.js';
import { containerForm } from '../shared/container-form.js';
import { byId, h, setOptions, setText } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { lotForm } from './lot-form.js';
import { sowingForm } from './sowing-form.js';
import { speciesForm } from './species-form.js';
import { viabilityWords } from './viability-words.js';
import { texts } from './texts.js';

/** @param done called with words after something was added */
export function makeStart({ host, done }) {
  const state = { tally: null };
  const container = step(
    'container',
    texts.aContainer,
    containerForm({
      id: 'tally-container',
      submit: texts.makeTheContainer,
      save: async (body, element) => {
        const made = await api.createContainer(body);
        element.reset();
        done(texts.made(made.name), 'lot');
      },
    }),
  );
  const species = step('species', texts.aSpecies, speciesPart());
  const lot = step('lot', texts.aSeedLot, lotForm(done));
  const sowing = step('sowing', texts.aSowing, sowingForm(containerOptions, done));
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
      h('div', { class: 'field' }, h('label', { for: 'species-to-change' }, texts.newOrChangeOne), pick),
      place,
    );
  }

  function containerOptions() {
    return (state.tally?.containers ?? []).map((one) => ({ value: one.id, text: one.name }));
  }

  function update(tally) {
    state.tally = tally;
    const empty = tally.sowings.length === 0;
    setText(byId('start-title'), empty ? texts.nothingSownYet : texts.addMore);
    setText(byId('start-lead'), empty ? texts.fourStepsToTheFirst : '');
    const names = new Map(tally.species.map((one) => [one.id, one.name]));
    setText(byId('known-species'), texts.thereAlready(tally.species.map((one) => one.name).join(', ') || texts.none));
    setOptions(byId('species-to-change'), [
      { value: '', text: texts.aNewSpecies },
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
    markDone(container, tally.containers.length > 0 && f.count(tally.containers.length, texts.containerCount));
    markDone(species, tally.species.length > 0 && texts.known(tally.species.length));
    markDone(lot, tally.lots.length > 0 && f.count(tally.lots.length, texts.lotCount));
    markDone(sowing, !empty && f.count(tally.sowings.length, texts.sowingCount));
  }

  /** Opens one step and closes the others. */
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
  texts.lotOfLeft(
    lot.name ?? names.get(lot.species) ?? lot.species,
    lot.id,
    lot.left,
    lot.seeds,
    viabilityWords(lot.germinateIfSownNow) || freshWords(lot.freshness),
  );

export function freshWords(freshness) {
  if (!freshness) return '';
  const days = Math.floor(freshness.daysLeft);
  return days >= 0
    ? texts.keeps(f.count(days, texts.moreDayCount))
    : texts.keptTooLongBy(f.count(-days, texts.dayCount));
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
