// Which containers and quantities are drawn: kept in the address, offered as boxes.

import { specsOfSeveral } from '../chart-parts/specs.js';
import { MOST_LINES } from '../chart-parts/colours.js';
import { byId, h, reconcile, setText } from '../shared/dom.js';
import { showNext, withoutContainers } from '../shared/next-step.js';
import { matches } from './match.js';
import { texts } from './texts.js';

/** More boxes than this are found by the search. */
const MOST_BOXES = 24;
const USUAL = ['temperature', 'humidity', 'light', 'heat'];
const QUANTITIES = Object.keys(specsOfSeveral(1));

export function fromAddress() {
  const query = new URLSearchParams(location.search);
  const quantities = query.getAll('quantity').filter((one) => QUANTITIES.includes(one));
  return {
    containers: [...new Set(query.getAll('container'))].slice(0, MOST_LINES),
    quantities: quantities.length > 0 ? quantities : USUAL,
  };
}

/** Keeps the stretch of time, which stands in the address too. */
export function toAddress({ containers, quantities }) {
  const query = new URLSearchParams(location.search);
  query.delete('container');
  query.delete('quantity');
  for (const id of containers) query.append('container', id);
  if (quantities.join() !== USUAL.join()) for (const one of quantities) query.append('quantity', one);
  history.replaceState(null, '', `?${query}`);
}

/** The first two; the grower chooses others. */
export const firstChoice = (containers) => containers.slice(0, 2).map((one) => one.id);

const toggled = (list, one, wanted) => (wanted ? [...list, one] : list.filter((other) => other !== one));

/** @param changed called with the new choice */
export function drawChoice(all, choice, changed) {
  const search = byId('search');
  search.oninput = () => drawChoice(all, choice, changed);
  byId('containers').querySelector('.search-field').hidden = all.length <= MOST_BOXES;
  const chosen = all.filter((one) => choice.containers.includes(one.id));
  const found = all.filter((one) => !choice.containers.includes(one.id) && matches(one, search.value));
  const full = chosen.length >= MOST_LINES;
  drawBoxes(
    byId('containers').querySelector('.choices'),
    [...chosen, ...found.slice(0, MOST_BOXES)].map(({ id, name }) => ({ key: id, name })),
    (key) => choice.containers.includes(key),
    (key, wanted) => changed({ ...choice, containers: toggled(choice.containers, key, wanted) }),
    full,
  );
  const more = found.length > MOST_BOXES ? texts.moreBySearch(found.length - MOST_BOXES) : '';
  showNext(byId('choice-help'), ...helpOf(all, chosen, full ? texts.noMoreThan(MOST_LINES) : more));
  const titles = specsOfSeveral(1);
  drawBoxes(
    byId('quantities').querySelector('.choices'),
    QUANTITIES.map((key) => ({ key, name: titles[key].title() })),
    (key) => choice.quantities.includes(key),
    (key, wanted) =>
      changed({
        ...choice,
        quantities: QUANTITIES.filter((one) => toggled(choice.quantities, key, wanted).includes(one)),
      }),
    false,
  );
}

/** What is missing for a chart, with the next step; else the other words. */
function helpOf(all, chosen, other) {
  if (all.length === 0) return withoutContainers();
  if (chosen.length === 0) return [texts.chooseAContainer];
  const measured = ({ sensors, heat }) => (sensors ?? []).length > 0 || heat?.from;
  if (!chosen.some(measured)) return [texts.noReadingsYet, { title: texts.placeASensor, href: '/sensors.html' }];
  return [other];
}

/** Boxes that stay keep the focus; their listeners are those of the newest choice. */
function drawBoxes(place, options, isChosen, choose, full) {
  reconcile(
    place,
    options,
    (one) => one.key,
    (one) => h('label', { class: 'choice' }, h('input', { type: 'checkbox', value: one.key }), h('span', {})),
    (label, one) => {
      const box = label.querySelector('input');
      box.checked = isChosen(one.key);
      box.disabled = full && !box.checked;
      box.onchange = () => choose(one.key, box.checked);
      setText(label.querySelector('span'), one.name);
    },
  );
}
