// The record of one sowing: what next, the curve, measures, every entry with its correction.

import { api } from '../shared/api.js';
import { h, whileBusy } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { now } from '../shared/clock.js';
import { entryWords, fractionWords, measureRows, prospectWords, replicateWords } from './seed-words.js';
import { makeCourse } from './course-view.js';
import { forecasts } from './forecast.js';
import { pictureButton, pictureOf } from './photo.js';
import { counter, checkFields, localTime, openSheet, whenField } from './sheet.js';

const CONFIDENCE = 0.9;

/** Which question about a place is the newest, so that an older answer that comes later does not take its place. */
const newest = new WeakMap();

/** @param place to fill; @param context names(container), species, write(entry), refresh() */
export async function showRecord(place, sowing, context) {
  const mine = {};
  newest.set(place, mine);
  const asked = api.heatCourse(sowing.id);
  asked.catch(() => {}); // it is told where the answer would have stood
  const [told, entries] = await Promise.all([api.germination(sowing.id), api.entries(sowing.id)]);
  if (newest.get(place) !== mine) return;
  const output = h('div');
  place.replaceChildren(
    h('h4', {}, 'What next'),
    whatNext(told, sowing, context),
    forecasts(sowing, context.names, asked),
    h('h4', {}, 'How they came up'),
    makeCourse(told, sowing, asked),
    h(
      'dl',
      { class: 'measures' },
      measureRows(told.measures).flatMap(([title, value]) => [h('dt', {}, title), h('dd', {}, value)]),
    ),
    bestFit(told),
    ...replicates(told),
    h('h4', {}, 'Seeds to gather next time'),
    seedsToGather(told, sowing),
    h('h4', {}, 'The record'),
    output,
    record(entries, sowing, context, output),
  );
}

function whatNext(told, sowing, { species }) {
  const day = (now() - Date.parse(told.sownAt)) / 86_400_000;
  const words = prospectWords({
    prospect: told.prospect,
    remaining: told.remaining,
    day,
    giveUpDays: species?.figures.giveUpDays?.value ?? null,
  });
  return h(
    'div',
    { class: 'next' },
    h('p', { class: 'headline' }, words.headline),
    words.lines.map((line) => h('p', {}, line)),
    words.assumption && h('p', { class: 'quiet' }, words.assumption),
  );
}

function bestFit({ fits: { best, fits, finalFractionInterval }, checks }) {
  const fit = fits.find((one) => one.model === best);
  if (!fit)
    return h('p', { class: 'quiet' }, `No curve can be fitted to these counts: ${fits.at(-1)?.reason ?? 'too few'}.`);
  const name = fit.model.replace('WithFinalFraction', '');
  const final = finalFractionInterval
    ? `In the end ${fractionWords(fit.finalFraction, finalFractionInterval)} germinate; the interval is over all curves that fit about as well.`
    : 'Taken for granted: every seed germinates in the end, since these counts tell no final fraction.';
  const watched = Math.max(0, ...checks.map((check) => check.day));
  const half = fit.medianReason
    ? fit.medianReason
    : fit.median <= watched
      ? `half of those that ever germinate by day ${f.number(fit.median, 1)}`
      : 'half of those that ever germinate only after the last check, which is a guess beyond what was seen';
  return h('p', { class: 'quiet' }, `Best of six fitted curves: ${name}; ${half}. ${final}`);
}

/** Several groups of one sowing are replicates of each other. */
function replicates(told) {
  const words = replicateWords(told.replicates);
  return words === null
    ? []
    : [
        h(
          'div',
          { class: 'replicates' },
          h('h4', {}, 'Groups against each other'),
          h('p', { class: 'headline' }, words.headline),
          words.lines.map((line) => h('p', {}, line)),
        ),
      ];
}

function seedsToGather(told, sowing) {
  if (told.fraction.sown === 0) return h('p', { class: 'quiet' }, 'This is told after the first check.');
  const potted = sowing.potted > 0;
  const hits = potted ? sowing.potted : told.germinated;
  const result = h('p', { role: 'status' });
  const output = h('div');
  const input = h('input', { id: `wanted-${sowing.id}`, inputmode: 'numeric', value: 10, autocomplete: 'off' });
  const button = h('button', { type: 'submit' }, 'How many?');
  const ask = () =>
    whileBusy(button, output, async () => {
      result.replaceChildren();
      const wanted = Math.trunc(Number(input.value)) || 0;
      const { seeds, assumption } = await api.seedsNeeded({
        wanted,
        confidence: CONFIDENCE,
        germinated: hits,
        sown: told.fraction.sown,
      });
      result.replaceChildren(
        h('strong', {}, `Sow about ${f.count(seeds, 'seed')}`),
        ` for ${f.number(wanted)} ${potted ? 'potted on' : 'germinated'}, with nine chances in ten. ${assumption}`,
      );
    });
  return h(
    'form',
    {
      class: 'form',
      on: {
        submit: (event) => {
          event.preventDefault();
          ask();
        },
      },
    },
    h(
      'p',
      { class: 'quiet' },
      `From this sowing alone: ${hits} ${potted ? 'potted on' : 'germinated'} of ${told.fraction.sown} looked at.`,
    ),
    h(
      'div',
      { class: 'field' },
      h('label', { for: input.id }, potted ? 'Seedlings wanted in pots' : 'Germinated seeds wanted'),
      input,
    ),
    output,
    result,
    h('div', { class: 'actions' }, button),
  );
}

function record(entries, sowing, context, output) {
  const by = new Map(entries.map((entry) => [entry.id, entry]));
  return h(
    'ul',
    { class: 'record' },
    [...entries]
      .filter((entry) => entry.kind !== 'withdrawn')
      .sort((a, b) => Date.parse(b.at) - Date.parse(a.at))
      .map((entry) => {
        const after = entry.correctedBy && by.get(entry.correctedBy);
        const state = !after
          ? ''
          : after.kind === 'withdrawn'
            ? ` Withdrawn: ${after.reason}.`
            : ` Corrected: ${after.reason}.`;
        return h(
          'li',
          { data: { entry: entry.id } },
          h(
            'span',
            { class: after ? 'void' : '' },
            `${f.stamp(entry.at, now())}. ${entryWords(entry, context.names)}.`,
          ),
          entry.remark && ` “${entry.remark}”`,
          state,
          entry.corrects && !after && ' (a correction)',
          pictureOf(entry, entryWords(entry, context.names)),
          !after &&
            h(
              'div',
              { class: 'actions' },
              ['checked', 'survival'].includes(entry.kind) &&
                h('button', { type: 'button', on: { click: () => correct(entry, context) } }, 'Correct'),
              h(
                'button',
                { type: 'button', class: 'plain', on: { click: () => confirmWithdrawal(entry, context) } },
                'Withdraw',
              ),
              pictureButton(entry, output, context.refresh),
            ),
        );
      }),
  );
}

const reasonField = () => {
  const input = h('input', {
    id: 'reason',
    name: 'reason',
    maxlength: 300,
    autocomplete: 'off',
    placeholder: 'a mistake',
  });
  return {
    read: () => input.value.trim() || null,
    element: h('div', { class: 'field' }, h('label', { for: 'reason' }, 'Why (optional)'), input),
  };
};

function correct(entry, { names, write }) {
  const reason = reasonField();
  const fields = entry.check ? checkFields(null, entry.check) : null;
  const was = localTime(entry.at);
  const when = whenField('Done at', was);
  const at = () => (when.input.value === was ? null : when.read());
  const alive = entry.survival ? counter('Alive', { name: 'alive', value: entry.survival.alive }) : null;
  openSheet({
    title: 'Correct this entry',
    lead: `${f.stamp(entry.at, now())}. ${entryWords(entry, names)}. The old entry stays in the record, crossed out.`,
    content: [...(fields ? [...fields.elements, fields.roots] : [alive.element]), when.element, reason.element],
    submit: 'Correct it',
    save: () =>
      write({
        path: `/api/entries/${entry.id}/correction`,
        kind: 'correction',
        group: entry.group,
        what: `Correction of: ${entryWords(entry, names)}`,
        body: {
          reason: reason.read(),
          ...(fields
            ? { check: { ...fields.read(), at: at(), remark: entry.remark } }
            : { survival: { alive: alive.read(), at: at(), remark: entry.remark } }),
        },
      }),
  });
}

export function confirmWithdrawal(entry, { names, write }) {
  const reason = reasonField();
  openSheet({
    title: 'Withdraw this entry?',
    lead: `${f.stamp(entry.at, now())}. ${entryWords(entry, names)}. It stays in the record, crossed out, and counts no more.`,
    content: [reason.element],
    submit: 'Withdraw it',
    save: () =>
      write({
        path: `/api/entries/${entry.id}/withdrawal`,
        kind: 'withdrawal',
        group: entry.group,
        what: `Withdrawal of: ${entryWords(entry, names)}`,
        body: { reason: reason.read() },
      }),
  });
}
