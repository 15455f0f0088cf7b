// The lists of open and shelved alerts, with the buttons of each.

import { api } from '../shared/api.js';
import { updateAlert } from '../shared/attention.js';
import { containerLink } from '../shared/container-link.js';
import { now } from '../shared/clock.js';
import { h, problemBox, reconcile, setText, whileBusy } from '../shared/dom.js';
import { alertDetail, byUrgency, isOpen, isShelved } from '../shared/alert-words.js';
import { conditionOf } from '../shared/conditions.js';
import { historyTime } from './history.js';
import { readMinutes } from './words.js';

const USUAL_MINUTES = 60;
export const MOST_SHOWN = 100;

export const nameOf = (alert) => alert.containerName ?? alert.container;
export const title = (alert) =>
  h(
    'p',
    { class: 'alert-title' },
    h('strong', {}, conditionOf(alert.kind).title),
    ': ',
    h('a', { href: containerLink(alert.container) }, nameOf(alert)),
  );

/** Returns how many are open and how many shelved. */
export function drawOpen(openList, shelvedList, alerts, changed) {
  const at = now();
  const all = alerts.filter(isOpen).sort(byUrgency(at));
  const open = all.filter((alert) => !isShelved(alert, at));
  const shelved = all.filter((alert) => isShelved(alert, at));
  reconcile(
    openList,
    open,
    (alert) => alert.id,
    (alert) => makeOpen(alert, changed),
    updateAlert,
  );
  reconcile(
    shelvedList,
    shelved,
    (alert) => alert.id,
    (alert) => makeShelved(alert, changed),
    updateShelved,
  );
  return { open: open.length, shelved: shelved.length };
}

function makeOpen(alert, changed) {
  const output = h('div');
  const acknowledge = h(
    'button',
    {
      type: 'button',
      class: 'acknowledge',
      'aria-label': `Acknowledge: ${conditionOf(alert.kind).title}, ${nameOf(alert)}`,
      on: { click: () => whileBusy(acknowledge, output, async () => changed(await api.acknowledge(alert.id))) },
    },
    'Acknowledge',
  );
  return h(
    'li',
    { class: 'alert' },
    title(alert),
    h('p', { class: 'detail' }),
    h('p', { class: 'standing quiet' }),
    h('div', { class: 'actions' }, acknowledge),
    output,
    shelving(alert, changed),
  );
}

function shelving(alert, changed) {
  const output = h('div');
  const minutes = h('input', {
    id: `minutes-${alert.id}`,
    name: 'minutes',
    type: 'text',
    inputmode: 'numeric',
    autocomplete: 'off',
    value: USUAL_MINUTES,
  });
  const reason = h('input', {
    id: `reason-${alert.id}`,
    name: 'reason',
    type: 'text',
    maxlength: 200,
    autocomplete: 'off',
  });
  const button = h('button', { type: 'submit' }, 'Shelve it');
  const submit = (event) => {
    event.preventDefault();
    const read = readMinutes(minutes.value);
    if (read.problem) output.replaceChildren(problemBox({ message: read.problem }));
    else whileBusy(button, output, async () => changed(await api.shelve(alert.id, read.minutes, reason.value)));
  };
  return h(
    'details',
    { class: 'shelve' },
    h('summary', {}, 'Shelve'),
    h(
      'form',
      { class: 'form', novalidate: true, on: { submit } },
      h(
        'div',
        { class: 'fields' },
        h('div', { class: 'field' }, h('label', { for: minutes.id }, 'For (minutes)'), minutes),
        h('div', { class: 'field' }, h('label', { for: reason.id }, 'Why (may stay empty)'), reason),
      ),
      output,
      h('p', { class: 'help' }, 'Nobody is told of it until then; afterwards it comes back by itself.'),
      button,
    ),
  );
}

function makeShelved(alert, changed) {
  const output = h('div');
  const button = h(
    'button',
    {
      type: 'button',
      class: 'unshelve',
      on: { click: () => whileBusy(button, output, async () => changed(await api.unshelve(alert.id))) },
    },
    'Take it back now',
  );
  return h(
    'li',
    { class: 'alert' },
    title(alert),
    h('p', { class: 'detail' }),
    h('p', { class: 'standing quiet' }),
    h('div', { class: 'actions' }, button),
    output,
  );
}

function updateShelved(item, alert) {
  Object.assign(item.dataset, { alert: alert.id, kind: alert.kind, state: alert.state, shelved: true });
  setText(item.querySelector('.detail'), alertDetail(alert, now()));
  const until = new Date(alert.shelvedUntil);
  setText(
    item.querySelector('.standing'),
    `Shelved until ${historyTime(until)}${alert.shelvedBy ? ` by ${alert.shelvedBy}` : ''}; comes back by itself.`,
  );
}
