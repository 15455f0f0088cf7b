// The entries of a sowing, with correction and withdrawal of each.

import { now } from '../shared/clock.js';
import { h } from '../shared/dom.js';
import * as t from '../shared/time-format.js';
import { pictureButton, pictureOf } from './photo.js';
import { entryWords } from './entry-words.js';
import { checkFields } from './check-fields.js';
import { counter, openSheet, whenField } from './sheet.js';
import { texts } from './texts.js';

export function record(entries, sowing, context, output) {
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
            ? texts.withdrawn(after.reason)
            : texts.corrected(after.reason);
        return h(
          'li',
          { data: { entry: entry.id } },
          h(
            'span',
            { class: after ? 'void' : '' },
            `${t.stamp(entry.at, now())}. ${entryWords(entry, context.names)}.`,
          ),
          entry.remark && ` “${entry.remark}”`,
          state,
          entry.corrects && !after && texts.aCorrection,
          pictureOf(entry, entryWords(entry, context.names)),
          !after &&
            h(
              'div',
              { class: 'actions' },
              ['checked', 'survival'].includes(entry.kind) &&
                h('button', { type: 'button', on: { click: () => correct(entry, context) } }, texts.correct),
              h(
                'button',
                { type: 'button', class: 'plain', on: { click: () => confirmWithdrawal(entry, context) } },
                texts.withdraw,
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
  });
  return {
    read: () => input.value.trim() || null,
    element: h('div', { class: 'field' }, h('label', { for: 'reason' }, texts.whyOptional), input),
  };
};

function correct(entry, { names, write }) {
  const reason = reasonField();
  const fields = entry.check ? checkFields(null, entry.check) : null;
  const was = t.inputOf(entry.at);
  const when = whenField(texts.doneAt, was);
  const at = () => (when.input.value === was ? null : when.read());
  const alive = entry.survival ? counter(texts.alive, { name: 'alive', value: entry.survival.alive }) : null;
  openSheet({
    title: texts.correctThisEntry,
    lead: texts.theOldEntryStaysIn(t.stamp(entry.at, now()), entryWords(entry, names)),
    content: [...(fields ? [...fields.elements, fields.roots] : [alive.element]), when.element, reason.element],
    submit: texts.correctIt,
    save: () =>
      write({
        path: `/api/entries/${entry.id}/correction`,
        kind: 'correction',
        group: entry.group,
        what: texts.correctionOf(entryWords(entry, names)),
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
    title: texts.withdrawThisEntry,
    lead: texts.itStaysInTheRecord(t.stamp(entry.at, now()), entryWords(entry, names)),
    content: [reason.element],
    submit: texts.withdrawIt,
    save: () =>
      write({
        path: `/api/entries/${entry.id}/withdrawal`,
        kind: 'withdrawal',
        group: entry.group,
        what: texts.withdrawalOf(entryWords(entry, names)),
        body: { reason: reason.read() },
      }),
  });
}
