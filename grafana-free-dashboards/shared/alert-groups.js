// A list of alerts in groups of one cause, each with buttons for the whole group.

import { PAUSE_MINUTES, updateAlert } from './alert-item.js';
import { groupAlerts } from './alert-words.js';
import { api } from './api.js';
import { now } from './clock.js';
import { conditionOf } from './conditions.js';
import { h, reconcile, setText, whileBusy } from './dom.js';
import { count } from './format.js';
import { texts } from './texts.js';

/**
 * Draws alerts that wait for a person, most harmful first.
 * @param heatSourceOf gives the heat source of a container by its id; null if it has none
 * @param changed called with each alert that a button has changed
 * @param make makes the element of one alert; called with the alert and `changed`
 */
export function drawGroups(list, { alerts, heatSourceOf, changed, make }) {
  const makeOne = (alert) => make(alert, changed);
  reconcile(
    list,
    groupAlerts(alerts, heatSourceOf, now()),
    (group) => (group.alerts.length > 1 ? group.key : `alert/${group.alerts[0].id}`),
    (group) => (group.alerts.length > 1 ? makeGroup(changed) : makeOne(group.alerts[0])),
    (item, group) => (group.alerts.length > 1 ? updateGroup(item, group, makeOne) : updateAlert(item, group.alerts[0])),
  );
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
        h('button', { type: 'button', on: { click: all(api.acknowledge) } }, texts.acknowledgeAll),
        h(
          'button',
          { type: 'button', class: 'plain', on: { click: all((id) => api.shelve(id, PAUSE_MINUTES)) } },
          texts.pauseAllFor1H,
        ),
      ),
    ),
    output,
    h('ul', { class: 'alerts' }),
  );
}

function updateGroup(item, group, make) {
  item.dataset.kind = group.kind;
  setText(
    item.querySelector('.group-title'),
    texts.onLookAtTheHeat(
      count(group.alerts.length, texts.containerCount),
      group.source,
      conditionOf(group.kind).group,
    ),
  );
  reconcile(item.querySelector('ul'), group.alerts, (alert) => alert.id, make, updateAlert);
}
