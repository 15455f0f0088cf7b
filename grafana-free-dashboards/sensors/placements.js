// The placements of one sensor, each with a form that corrects or removes it.

import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';
import { actionButton, h, reconcile, setOptions, setText } from '../shared/dom.js';
import { field, form } from '../shared/form.js';
import { nameOf, placeWords, ROOM } from '../shared/sensor-place.js';
import { stamp, inputOf } from '../shared/time-format.js';
import { typedInstant } from './change-words.js';
import { texts } from './texts.js';

export function makePlacements({ key, known, result }) {
  const none = h('p', { class: 'quiet' }, texts.noneYet);
  const list = h('ul', { class: 'rows', id: 'placements' });
  const sensor = () => known.sensors.get(key);

  /** @param change gets the placements and returns the corrected ones */
  const correct = (done, change) =>
    result.run([key], done, () => api.correctPlacements(key, change(sensor().placements)));

  function make(placement) {
    const output = h('div', { class: 'output' });
    const same = (one) => one.from === placement.from;
    const remove = actionButton({ class: 'plain' }, texts.remove, output, () =>
      correct(texts.aPlacementOfIsRemoved(nameOf(sensor())), (all) => all.filter((one) => !same(one))),
    );
    const element = form({
      plain: true,
      content: h(
        'div',
        { class: 'fields' },
        field(texts.place, h('select', { name: 'container' })),
        field(texts.from, h('input', { name: 'from', type: 'datetime-local', value: inputOf(placement.from) })),
        field(
          texts.until,
          h('input', { name: 'until', type: 'datetime-local', value: inputOf(placement.until) }),
          texts.emptyStillThere,
        ),
      ),
      submit: texts.correct,
      output,
      other: remove,
      save: () => {
        const { container, from, until } = element.elements;
        const corrected = {
          container: container.value,
          from: typedInstant(from.value, placement.from),
          until: typedInstant(until.value, placement.until) ?? null,
        };
        return correct(texts.aPlacementOfIsCorrected(nameOf(sensor())), (all) =>
          all.map((one) => (same(one) ? corrected : one)),
        );
      },
    });
    return h('li', {}, h('details', {}, h('summary', {}), element));
  }

  function update(item, placement) {
    const select = item.querySelector('select');
    const first = select.options.length === 0;
    const where = [...known.containers.values()].map((one) => ({ value: one.id, text: one.name }));
    setOptions(select, [...where, { value: ROOM, text: texts.outsideToMeasureTheRoom }]);
    if (first) select.value = placement.container;
    setText(item.querySelector('summary'), words(placement, known.containers));
  }

  return {
    element: h('div', {}, none, list),
    update: () => {
      const all = [...sensor().placements].reverse();
      none.hidden = all.length > 0;
      reconcile(list, all, (one) => `${one.container} ${one.from} ${one.until}`, make, update);
    },
  };
}

function words({ container, from, until }, containers) {
  const where = placeWords(container, containers);
  const start = stamp(from, now());
  return `${where.charAt(0).toUpperCase()}${where.slice(1)}: ${start} ${until ? texts.to2(stamp(until, now())) : texts.untilNow}`;
}
