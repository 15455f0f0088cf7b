// The lists of open and shelved alerts, with the buttons of each.

import { api } from '../shared/api.js';
import { drawGroups } from '../shared/alert-groups.js';
import { containerLink } from '../shared/container-link.js';
import { now } from '../shared/clock.js';
import { actionButton, h, reconcile, setText } from '../shared/dom.js';
import { field, form } from '../shared/form.js';
import { alertDetail, byUrgency, isOpen, isShelved } from '../shared/alert-words.js';
import { conditionOf } from '../shared/conditions.js';
import { makeContainer, showNext } from '../shared/next-step.js';
import * as t from '../shared/time-format.js';
import { readMinutes } from './words.js';
import { texts } from './texts.js';

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
export function drawOpen(openList, shelvedList, { alerts, toldOf, heatSourceOf, changed }) {
  const at = now();
  const all = alerts.filter(isOpen).sort(byUrgency(at));
  const open = all.filter((alert) => !isShelved(alert, at));
  const shelved = all.filter((alert) => isShelved(alert, at));
  drawGroups(openList, { alerts: open, heatSourceOf, changed, make: makeOpen });
  reconcile(
    shelvedList,
    shelved,
    (alert) => alert.id,
    (alert) => makeShelved(alert, changed),
    updateShelved,
  );
  for (const list of [openList, shelvedList])
    for (const item of list.querySelectorAll('[data-alert]')) showTold(item, toldOf(Number(item.dataset.alert)));
  return { open: open.length, shelved: shelved.length };
}

/** Without a container, no alert can come: the next step is to make one. */
export function sayNoneOpen(place, containers) {
  if (containers > 0) showNext(place, texts.nothingIsOpen);
  else showNext(place, texts.noContainerYet, makeContainer());
}

function makeOpen(alert, changed) {
  const acknowledge = action(
    {
      class: 'acknowledge',
      'aria-label': texts.acknowledge(conditionOf(alert.kind).title, nameOf(alert)),
    },
    texts.acknowledge2,
    async () => changed(await api.acknowledge(alert.id)),
  );
  return alertItem(alert, acknowledge, shelving(alert, changed));
}

/** A button and the place below it for a problem. */
function action(props, words, act) {
  const output = h('div');
  return [h('div', { class: 'actions' }, actionButton(props, words, output, act)), output];
}

const alertItem = (alert, ...actions) =>
  h(
    'li',
    { class: 'alert' },
    title(alert),
    h('p', { class: 'detail' }),
    h('p', { class: 'standing quiet' }),
    h('div', { class: 'told quiet' }),
    actions,
  );

/** What became of its notices, a line for each. */
export const showTold = (item, lines) =>
  reconcile(
    item.querySelector('.told'),
    lines,
    (line) => line,
    (line) => h('p', {}, line),
  );

function shelving(alert, changed) {
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
  return h(
    'details',
    { class: 'shelve' },
    h('summary', {}, texts.pause),
    form({
      content: [
        h('div', { class: 'fields' }, field(texts.forMinutes, minutes), field(texts.whyMayStayEmpty, reason)),
        h('p', { class: 'help' }, texts.nobodyIsNotifiedUntilThen),
      ],
      submit: texts.pauseIt,
      plain: true,
      save: async () => {
        const read = readMinutes(minutes.value);
        if (read.problem) throw new Error(read.problem);
        changed(await api.shelve(alert.id, read.minutes, reason.value));
      },
    }),
  );
}

const makeShelved = (alert, changed) =>
  alertItem(
    alert,
    action({ class: 'unshelve' }, texts.endThePause, async () => changed(await api.unshelve(alert.id))),
  );

function updateShelved(item, alert) {
  Object.assign(item.dataset, { alert: alert.id, kind: alert.kind, state: alert.state, shelved: true });
  setText(item.querySelector('.detail'), alertDetail(alert, now()));
  setText(
    item.querySelector('.standing'),
    texts.pausedUntilThenItIs(t.stamp(alert.shelvedUntil, now()), alert.shelvedBy ? texts.by(alert.shelvedBy) : ''),
  );
}
