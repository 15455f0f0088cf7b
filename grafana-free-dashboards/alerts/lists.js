// Open and shelved alerts with what can be done about each, and the history.

import { api } from '../shared/api.js';
import { h, problemBox, reconcile, setText, whileBusy } from '../shared/dom.js';
import { updateAlert } from '../shared/attention.js';
import { containerLink } from '../shared/card.js';
import { now } from '../shared/clock.js';
import { historyLine, newestFirst, readMinutes, transitionTime, transitionWords } from './words.js';
import { alertDetail, byUrgency, conditionOf, isOpen, isShelved } from '../shared/words.js';

const USUAL_MINUTES = 60;
const MOST_SHOWN = 100;

const nameOf = (alert) => alert.containerName ?? alert.container;
const title = (alert) =>
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

const historyTime = (date) => transitionTime({ at: date.toISOString(), recordedAt: date.toISOString() }, now());

const different = (pairs) =>
  [...new Map(pairs)].map(([value, text]) => ({ value, text })).sort((a, b) => a.text.localeCompare(b.text));

/** What the history can be narrowed down to: the containers and the kinds that are in it. */
export const historyChoices = (alerts) => ({
  container: [{ value: '', text: 'All' }, ...different(alerts.map((alert) => [alert.container, nameOf(alert)]))],
  kind: [{ value: '', text: 'All' }, ...different(alerts.map((alert) => [alert.kind, conditionOf(alert.kind).title]))],
});

/** Those of one container, of one kind, or both; an empty choice is all. */
export const narrowed = (alerts, { container, kind }) =>
  alerts.filter((alert) => (!container || alert.container === container) && (!kind || alert.kind === kind));

/** The newest first; the transitions of one are fetched when it is unfolded, and again when it changes. */
export function drawHistory(list, alerts) {
  reconcile(list, newestFirst(alerts).slice(0, MOST_SHOWN), (alert) => alert.id, makePast, updatePast);
}

function makePast(alert) {
  const place = h('ol', { class: 'transitions' });
  const details = h(
    'details',
    { on: { toggle: () => details.open && showTransitions(alert.id, place) } },
    h('summary', {}, 'What happened when'),
    place,
  );
  return h(
    'li',
    { class: 'past' },
    title(alert),
    h('p', { class: 'when' }),
    h('p', { class: 'late quiet' }, 'Found late: readings that came afterwards show it; nobody was told.'),
    details,
  );
}

function updatePast(item, alert) {
  const changed = JSON.stringify(alert);
  Object.assign(item.dataset, { alert: alert.id, kind: alert.kind, late: alert.foundLate });
  setText(item.querySelector('.when'), `${historyLine(alert, now())}. ${alertDetail(alert, now())}`);
  item.querySelector('.late').hidden = !alert.foundLate;
  const details = item.querySelector('details');
  if (details.open && item.dataset.drawn !== changed) showTransitions(alert.id, details.querySelector('ol'));
  item.dataset.drawn = changed;
}

async function showTransitions(id, place) {
  try {
    const { transitions } = await api.alert(id);
    place.replaceChildren(
      ...transitions.map((one) =>
        h(
          'li',
          { data: { what: one.what } },
          h('span', { class: 'quiet' }, transitionTime(one, now())),
          ' ',
          transitionWords(one),
        ),
      ),
    );
  } catch (problem) {
    place.replaceChildren(h('li', {}, problemBox(problem)));
  }
}
