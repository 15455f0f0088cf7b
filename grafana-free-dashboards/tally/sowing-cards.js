// The card of each sowing: what germinated, and its groups with their buttons. Made once, then updated in place.

import { now } from '../shared/clock.js';
import { h, reconcile, setText } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { capital } from '../shared/text.js';
import * as t from '../shared/time-format.js';
import { dueWords, germinatedWords, groupName } from './seed-words.js';
import { withUnsent } from './unsent.js';
import { texts } from './texts.js';
import { checkWhy } from './why-words.js';

/** The display name of a sowing. */
export const nameOf = (sowing) => texts.sowing(sowing.name ?? sowing.speciesName, sowing.id);

/** Its seed lot: name and accession number, as far as given. */
const lotWords = (lot) => [texts.lotNumber(lot?.id), lot?.name, lot?.accession].filter(Boolean).join(', ');

/**
 * @param waiting all entries that wait on this device or were refused
 * @param names the name of a container, by its id
 * @param sheets opens the sheets of a group
 * @param unfolded called with a sowing and the place for its record
 * @param undo called with a sowing whose last entry is to be withdrawn
 * @param rename called with a sowing that is to be named; @param lotOf gives the lot of a sowing, by its id
 */
export function makeSowingCards({ waiting, names, sheets, unfolded, undo, rename, lotOf }) {
  function makeSowing(sowing) {
    const place = h('div', { class: 'record-place' });
    const details = h(
      'details',
      { on: { toggle: () => details.open && unfolded(sowing.id, place) } },
      h('summary', {}, texts.whatNextCurveRecord),
      place,
    );
    return h(
      'article',
      { class: 'sowing', data: { sowing: sowing.id } },
      h('header', {}, h('h3'), h('p', { class: 'about quiet' })),
      h('p', { class: 'fraction' }),
      h('p', { class: 'tally' }),
      h('div', { class: 'groups' }),
      details,
      h(
        'div',
        { class: 'actions' },
        h('button', { type: 'button', class: 'names', on: { click: () => rename(sowing.id) } }, texts.names),
        h('button', { type: 'button', class: 'undo', on: { click: () => undo(sowing.id) } }, texts.undoTheLastEntry),
      ),
    );
  }

  const waitingFor = (group) => waiting().filter((entry) => entry.group === group.id && !entry.refused);

  function updateSowing(card, sowing) {
    const groups = sowing.groups.map((group) => withUnsent(group, waiting()));
    const sum = (key) => groups.reduce((total, group) => total + group[key], 0);
    const newly = sowing.groups
      .flatMap(waitingFor)
      .filter((one) => one.kind === 'check')
      .reduce((total, one) => total + (one.body.germinated ?? 0), 0);
    const germinated = sowing.everGerminated + newly;
    setText(card.querySelector('h3'), nameOf(sowing));
    setText(
      card.querySelector('.about'),
      `${texts.sownDay(t.moment(sowing.at, now()), Math.floor((now() - Date.parse(sowing.at)) / 86_400_000))}. ${lotWords(lotOf(sowing.id))}`,
    );
    setText(
      card.querySelector('.fraction'),
      germinatedWords({ germinated, sown: sowing.sown, notLookedAt: sum('notLookedAt') }),
    );
    const alive = sowing.alive + sum('potted') - sowing.potted;
    setText(
      card.querySelector('.tally'),
      texts.nowUngerminatedGerminated(f.number(sum('ungerminated')), f.number(sum('germinated'))) +
        texts.pottedOnAliveCulled(f.number(sum('potted')), f.number(alive), f.number(sum('culled'))),
    );
    const shown = groups.filter(
      (group) => group.ungerminated + group.germinated > 0 || group.potted > 0 || waitingFor(group).length > 0,
    );
    reconcile(card.querySelector('.groups'), shown, (group) => group.id, makeGroup, updateGroup);
  }

  function makeGroup(group) {
    const button = (name, word, act, style) =>
      h(
        'button',
        {
          type: 'button',
          class: style,
          data: { act: name },
          'aria-label': texts.group5(word, group.id),
          on: { click: () => act(group.id) },
        },
        word,
      );
    return h(
      'div',
      { class: 'seed-group', data: { group: group.id } },
      h('p', {}, h('strong', { class: 'where' }), ' ', h('span', { class: 'counts' })),
      h('p', { class: 'quiet due' }),
      h('p', { class: 'waits' }),
      h(
        'div',
        { class: 'actions' },
        button('check', texts.check, sheets.openCheck, 'main'),
        button('move', texts.move, sheets.openMove),
        button('seedlings', texts.seedlings, sheets.openSurvival),
      ),
    );
  }

  function updateGroup(element, group) {
    const living = group.ungerminated + group.germinated;
    const waits = waitingFor(group).length;
    setText(element.querySelector('.where'), living > 0 ? names(group.container) : texts.pottedOn);
    setText(
      element.querySelector('.counts'),
      living > 0
        ? texts.groupUngerminatedGerminated2(groupName(group), f.number(group.ungerminated), f.number(group.germinated))
        : texts.group6(groupName(group), f.count(group.potted, texts.seedlingCount)),
    );
    setText(
      element.querySelector('.due'),
      group.nextCheck && living > 0
        ? `${capital(dueWords(group.nextCheck.at, now()))}: ${checkWhy(group.nextCheck)}.`
        : '',
    );
    setText(element.querySelector('.waits'), waits > 0 ? texts.waitingToBeSent(f.count(waits, texts.entryCount)) : '');
    element.querySelector('[data-act=check]').hidden = living === 0;
    element.querySelector('[data-act=move]').hidden = living === 0;
    element.querySelector('[data-act=seedlings]').hidden = group.potted === 0;
  }

  return { makeSowing, updateSowing };
}
