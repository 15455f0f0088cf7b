// The sheets in which a group of seeds is checked, moved, or its seedlings counted.

import { h, setOptions } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { checkFields } from './check-fields.js';
import { checkWords } from './entry-words.js';
import { entryOf, given, pathOf } from './entry.js';
import { pictureField } from './photo.js';
import { groupName } from './seed-words.js';
import { counter, openSheet, remarkField, whenField } from './sheet.js';
import { withUnsent } from './unsent.js';
import { texts } from './texts.js';

/**
 * @param tally the newest tally
 * @param waiting all entries that wait on this device or were refused
 * @param names the name of a container, by its id
 * @param write takes an entry, and a picture or null
 * @return one function for each sheet; it opens the sheet of the group with this id
 */
export function makeGroupSheets({ tally, waiting, names, write }) {
  /** A group with its unsent entries counted in, and its sowing. */
  function find(id) {
    const sowing = tally().sowings.find((one) => one.groups.some((group) => group.id === id));
    const stored = sowing.groups.find((group) => group.id === id);
    return { sowing, group: withUnsent(stored, waiting()) };
  }

  /** @param stop as a part of a round, see openSheet */
  function openCheck(id, stop = null) {
    const { sowing, group } = find(id);
    const fields = checkFields(group);
    const remark = remarkField();
    const picture = pictureField();
    const when = whenField();
    openSheet({
      stop,
      title: names(group.container),
      lead: texts.groupUngerminatedGerminated(
        sowing.speciesName,
        groupName(group),
        f.number(group.ungerminated),
        f.number(group.germinated),
      ),
      content: [
        ...fields.elements,
        h(
          'details',
          {},
          h('summary', {}, texts.rootsRemarkPictureAnotherTime),
          fields.roots,
          remark.element,
          picture.element,
          when.element,
        ),
      ],
      save: async () => {
        const check = fields.read();
        const taken = await picture.read();
        return write(
          entryOf('check', id, texts.group2(id, checkWords(check)), pathOf(id, 'checks'), {
            ...check,
            remark: remark.read(),
            ...given(when.read()),
          }),
          taken,
        );
      },
    });
  }

  function openMove(id) {
    const { sowing, group } = find(id);
    const to = h(
      'select',
      { id: 'move-to', name: 'to', on: { change: () => joins() } },
      tally().containers.map((place) =>
        h('option', { value: place.id, selected: place.id !== group.container }, place.name),
      ),
    );
    const join = h('select', { id: 'move-join', name: 'joinTo' });
    const joinField = h('div', { class: 'field' }, h('label', { for: 'move-join' }, texts.there), join);
    const ungerminated = counter(texts.ungerminated2, {
      name: 'ungerminated',
      value: group.ungerminated,
      most: () => group.ungerminated,
    });
    const germinated = counter(texts.germinated3, {
      name: 'germinated',
      value: group.germinated,
      most: () => group.germinated,
    });
    const when = whenField();
    const joins = () => {
      const others = sowing.groups.filter(
        (one) => one.id !== id && one.container === to.value && one.ungerminated + one.germinated > 0,
      );
      setOptions(join, [
        { value: '', text: texts.asAGroupOfTheir },
        ...others.map((one) => ({ value: one.id, text: texts.togetherWithGroup(groupName(one)) })),
      ]);
      joinField.hidden = others.length === 0;
    };
    joins();
    openSheet({
      title: texts.moveSeeds,
      lead: texts.groupNowIn(groupName(group), names(group.container)),
      submit: texts.moveThem,
      content: [
        h('div', { class: 'field' }, h('label', { for: 'move-to' }, texts.to2), to),
        joinField,
        ungerminated.element,
        germinated.element,
        h('details', {}, h('summary', {}, texts.anotherTime), when.element),
      ],
      save: () => {
        const part = { ungerminated: ungerminated.read(), germinated: germinated.read() };
        const all = part.ungerminated === group.ungerminated && part.germinated === group.germinated;
        const body = { to: to.value, ...(all ? {} : part), joinTo: join.value || null, ...given(when.read()) };
        const moved = all ? texts.allSeeds : f.count(part.ungerminated + part.germinated, texts.seedCount);
        return write(entryOf('move', id, texts.groupMovedTo2(id, moved, names(to.value)), pathOf(id, 'moves'), body));
      },
    });
  }

  function openSurvival(id) {
    const { group } = find(id);
    const alive = counter(texts.alive, { name: 'alive', value: group.alive, most: () => group.alive });
    openSheet({
      title: texts.countSeedlings,
      lead: texts.groupPottedOn(groupName(group), f.count(group.potted, texts.seedlingCount)),
      content: [alive.element],
      save: () =>
        write(
          entryOf('survival', id, texts.groupSeedlingsAlive(id, f.number(alive.read())), pathOf(id, 'survival'), {
            alive: alive.read(),
          }),
        ),
    });
  }

  return { openCheck, openMove, openSurvival };
}
