// The list of alerts on top of the shelf, most harmful first.

import { api } from './api.js';
import { announce, h, reconcile, setText, whileBusy } from './dom.js';
import { count } from './format.js';
import { now } from './clock.js';
import { containerLink } from './container-link.js';
import { alertDetail, alertStanding, groupAlerts, isOpen, isShelved } from './alert-words.js';
import { conditionOf } from './conditions.js';

const SHELVE_MINUTES = 60;

/** @param list where the groups go; @param changed called with each alert that a button has changed */
export function showAlerts({ list, shelvedPart, alerts, containers, changed }) {
  const at = now();
  const open = alerts.filter(isOpen);
  const put = open.filter((alert) => isShelved(alert, at));
  const waiting = open.filter((alert) => !isShelved(alert, at));
  const heatSourceOf = (id) => containers.get(id)?.heatSource ?? null;
  const groups = groupAlerts(waiting, heatSourceOf, at);
  reconcile(
    list,
    groups,
    (group) => (group.alerts.length > 1 ? group.key : `alert/${group.alerts[0].id}`),
    (group) => (group.alerts.length > 1 ? makeGroup(changed) : makeAlert(group.alerts[0], changed)),
    (item, group) => (group.alerts.length > 1 ? updateGroup(item, group, changed) : updateAlert(item, group.alerts[0])),
  );
  shelvedPart.hidden = put.length === 0;
  setText(shelvedPart.querySelector('summary'), `${count(put.length, 'paused alert')}`);
  reconcile(
    shelvedPart.querySelector('ul'),
    put,
    (alert) => alert.id,
    (alert) => makeAlert(alert, changed),
    updateAlert,
  );
  return waiting.length + put.length;
}

function makeGroup(changed) {
  const output = h('div');
  const all =
    (work) =>
    ({ currentTarget: button }) =>
      whileBusy(button, output, async () => {
        const items = button.closest('.group').querySelectorAll('[data-alert]');
        for (const item of items) changed(await work(item.dataset.alert));
      });
  return h(
    'li',
    { class: 'group' },
    h(
      'div',
      { class: 'group-head' },
      h('p', { class: 'group-title' }),
      h(
        'div',
        { class: 'actions' },
        h('button', { type: 'button', on: { click: all(api.acknowledge) } }, 'Acknowledge all'),
        h(
          'button',
          { type: 'button', class: 'plain', on: { click: all((id) => api.shelve(id, SHELVE_MINUTES)) } },
          'Pause all for 1 h',
        ),
      ),
    ),
    output,
    h('ul', { class: 'alerts' }),
  );
}

function updateGroup(item, group, changed) {
  item.dataset.kind = group.kind;
  setText(
    item.querySelector('.group-title'),
    `${count(group.alerts.length, 'container')} on “${group.source}” ${conditionOf(group.kind).group}. Look at the heat source first.`,
  );
  reconcile(
    item.querySelector('ul'),
    group.alerts,
    (alert) => alert.id,
    (alert) => makeAlert(alert, changed),
    updateAlert,
  );
}

export function makeAlert(alert, changed) {
  const output = h('div');
  const act = (work) => (event) => whileBusy(event.currentTarget, output, async () => changed(await work()));
  const name = alert.containerName ?? alert.container;
  return h(
    'li',
    { class: 'alert' },
    h('p', { class: 'alert-title' }, h('strong', {}), ': ', h('a', { href: containerLink(alert.container) }, name)),
    h('p', { class: 'detail' }),
    h('p', { class: 'standing quiet' }),
    h(
      'div',
      { class: 'actions' },
      h(
        'button',
        {
          type: 'button',
          class: 'acknowledge',
          'aria-label': `Acknowledge: ${conditionOf(alert.kind).title}, ${name}`,
          on: { click: act(() => api.acknowledge(alert.id)) },
        },
        'Acknowledge',
      ),
      h(
        'button',
        {
          type: 'button',
          class: 'plain shelve',
          'aria-label': `Pause for one hour: ${conditionOf(alert.kind).title}, ${name}`,
          on: { click: act(() => api.shelve(alert.id, SHELVE_MINUTES)) },
        },
        'Pause for 1 h',
      ),
    ),
    output,
  );
}

export function updateAlert(item, alert) {
  const at = now();
  const shelved = isShelved(alert, at);
  Object.assign(item.dataset, {
    alert: alert.id,
    kind: alert.kind,
    state: alert.state,
    acknowledged: alert.acknowledged,
    shelved,
  });
  setText(item.querySelector('strong'), conditionOf(alert.kind).title);
  setText(item.querySelector('.alert-title a'), alert.containerName ?? alert.container);
  setText(item.querySelector('.detail'), alertDetail(alert, at));
  setText(item.querySelector('.standing'), alertStanding(alert, at));
  item.querySelector('.acknowledge').hidden = alert.acknowledged;
  item.querySelector('.shelve').hidden = shelved || alert.state === 'returned';
}

/** Announces an alert to screen readers when it was raised or is no longer shelved. */
export function announceChange(before, alert) {
  if (alert.state === 'active' && !alert.acknowledged && before?.state !== 'active') {
    announce(
      `New alert. ${conditionOf(alert.kind).title}: ${alert.containerName ?? alert.container}. ${alertDetail(alert, now())}`,
    );
  }
}
