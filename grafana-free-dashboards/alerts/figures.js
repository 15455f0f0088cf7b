// Draws the figures about alerts, the notifiers, and the notices that were sent.

import { api } from '../shared/api.js';
import { actionButton, h, reconcile, setText, table } from '../shared/dom.js';
import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';
import { containerLink } from '../shared/container-link.js';
import { now } from '../shared/clock.js';
import { deliveryWords, failedFirst, hasFailed, notifierTitle, notifierWords, testWords } from './notice-words.js';
import { groupMarks, hintWords, rateWords, troubleWords } from './words.js';
import { conditionOf } from '../shared/conditions.js';
import { inSentence } from '../shared/text.js';
import { texts } from './texts.js';

const MOST_NOTICES = 100;

export function drawFigures(place, figures) {
  const columns = [
    { title: texts.container, cell: (one) => h('a', { href: containerLink(one.container) }, one.containerName) },
    { title: texts.what, cell: (one) => conditionOf(one.kind).title },
    { title: texts.raised, class: 'number', cell: (one) => f.number(one.raised) },
    { title: texts.aDay, class: 'number', cell: (one) => f.number(one.perDay, 1) },
    { title: texts.ofAll, class: 'number', cell: (one) => f.share(one.share) },
    { title: texts.remarks, cell: (one) => groupMarks(one) || '–' },
  ];
  const hints = figures.groups.filter((one) => one.hint);
  place.replaceChildren(
    h('p', { class: 'rate' }, rateWords(figures)),
    ...troubleWords(figures).map((words) => h('p', { class: 'caution' }, words)),
    ...(figures.groups.length === 0
      ? []
      : [h('div', { class: 'table-place' }, table(texts.whereTheyComeFromMost, columns, figures.groups))]),
    ...(hints.length === 0
      ? []
      : [
          h('h3', {}, texts.whatWouldMakeThemFewer),
          h(
            'ul',
            { class: 'hints' },
            hints.map((one) =>
              h(
                'li',
                {},
                h('a', { href: `${containerLink(one.container)}#rules` }, one.containerName),
                `, ${inSentence(conditionOf(one.kind).title)}: ${hintWords(one.hint, one.kind)}`,
              ),
            ),
          ),
          h('p', { class: 'quiet' }, texts.calculatedFromTheStoredReadings),
        ]),
  );
}

export function drawNotifiers(list, notifiers) {
  reconcile(
    list,
    notifiers,
    (one) => one.name,
    makeNotifier,
    (item, one) => {
      setText(item.querySelector('.name'), notifierTitle(one));
      setText(item.querySelector('.how'), notifierWords(one, now()));
      const trouble = item.querySelector('.trouble');
      trouble.hidden = !one.trouble;
      setText(trouble, one.trouble ?? '');
    },
  );
}

function makeNotifier(notifier) {
  const output = h('div', { role: 'status' });
  const button = actionButton({ 'aria-label': texts.test(notifier.name) }, texts.test2, output, async () => {
    const answer = await api.testNotifier(notifier.name);
    output.replaceChildren(h('p', { class: answer.delivered ? 'done' : 'problem' }, testWords(answer)));
  });
  return h(
    'li',
    { data: { notifier: notifier.name } },
    h(
      'div',
      { class: 'with-button' },
      h(
        'div',
        {},
        h('strong', { class: 'name' }),
        h('p', { class: 'how quiet' }),
        h('p', { class: 'trouble problem' }),
      ),
      button,
    ),
    output,
  );
}

export function drawNotices(list, notices) {
  reconcile(
    list,
    failedFirst(notices).slice(0, MOST_NOTICES),
    (sent) => sent.notice.id,
    ({ notice }) =>
      h(
        'li',
        { class: 'past' },
        h('p', { class: 'alert-title' }, h('strong', {}, notice.subject)),
        h('p', { class: 'when quiet' }),
        h('ul', { class: 'deliveries' }),
        h('details', {}, h('summary', {}, texts.itsWords), h('pre', {}, notice.text)),
      ),
    (item, sent) => {
      item.classList.toggle('failed', hasFailed(sent));
      setText(item.querySelector('.when'), t.stamp(sent.notice.createdAt, now()));
      reconcile(
        item.querySelector('.deliveries'),
        sent.deliveries,
        (one) => one.notifier,
        () => h('li'),
        (line, one) => {
          line.className = one.state;
          setText(line, deliveryWords(one, now()));
        },
      );
    },
  );
}
