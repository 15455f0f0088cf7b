// The entries of a sowing, with correction and withdrawal of each.

import { now } from '../shared/clock.js';
import { h } from '../shared/dom.js';
import * as t from '../shared/time-format.js';
import { pictureButton, pictureOf } from './photo.js';
import { entryWords } from './entry-words.js';
import { checkFields } from './check-fields.js';
import { counter, localTime, openSheet, whenField } from './sheet.js';

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
            ? ` Withdrawn: ${after.reason}.`
            : ` Corrected: ${after.reason}.`;
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
    lead: `${t.stamp(entry.at, now())}. ${entryWords(entry, names)}. The old entry stays in the record, crossed out.`,
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
    lead: `${t.stamp(entry.at, now())}. ${entryWords(entry, names)}. It stays in the record, crossed out, and counts no more.`,
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
