// How many seeds to gather for a wanted number of plants.

import { api } from '../shared/api.js';
import { h } from '../shared/dom.js';
import { field, form } from '../shared/form.js';
import * as f from '../shared/format.js';
import { texts } from './texts.js';

const CONFIDENCE = 0.9;

/** What was typed for each sowing, and whether it was asked. The record is drawn again after each entry. */
const typed = new Map();

export function seedsToGather(germination, sowing) {
  if (germination.fraction.sown === 0) return h('p', { class: 'quiet' }, texts.shownAfterTheFirstCheck);
  const potted = sowing.potted > 0;
  const hits = potted ? sowing.potted : germination.germinated;
  const result = h('p', { role: 'status' });
  const input = h('input', { id: `wanted-${sowing.id}`, inputmode: 'numeric', value: 10, autocomplete: 'off' });
  input.value = typed.get(sowing.id)?.wanted ?? input.value;
  input.addEventListener('input', () => typed.set(sowing.id, { wanted: input.value, asked: false }));
  const ask = async () => {
    typed.set(sowing.id, { wanted: input.value, asked: true });
    result.replaceChildren();
    const wanted = Math.trunc(Number(input.value)) || 0;
    const { seeds } = await api.seedsNeeded({
      wanted,
      confidence: CONFIDENCE,
      germinated: hits,
      sown: germination.fraction.sown,
    });
    result.replaceChildren(
      h('strong', {}, texts.sowAbout(f.count(seeds, texts.seedCount))),
      texts.forWithNineChancesIn(f.number(wanted), potted ? texts.pottedOn3 : texts.germinated),
    );
  };
  const element = form({
    content: [
      h(
        'p',
        { class: 'quiet' },
        texts.fromThisSowingAloneOf(hits, potted ? texts.pottedOn3 : texts.germinated, germination.fraction.sown),
      ),
      field(potted ? texts.seedlingsWantedInPots : texts.germinatedSeedsWanted, input),
      result,
    ],
    submit: texts.howMany,
    plain: true,
    save: ask,
  });
  // Once it is on the page.
  if (typed.get(sowing.id)?.asked) queueMicrotask(() => element.requestSubmit());
  return element;
}
