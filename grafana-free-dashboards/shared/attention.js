// The list of alerts on top of the shelf, most harmful first.

import { drawGroups } from './alert-groups.js';
import { makeAlert, updateAlert } from './alert-item.js';
import { alertDetail, isOpen, isShelved } from './alert-words.js';
import { api } from './api.js';
import { now } from './clock.js';
import { conditionOf } from './conditions.js';
import { announce, reconcile, setText } from './dom.js';
import { count } from './format.js';
import { texts } from './texts.js';

/** @param list where the groups go; @param changed called with each alert that a button has changed */
export function showAlerts({ list, shelvedPart, alerts, containers, changed }) {
  const at = now();
  const open = alerts.filter(isOpen);
  const put = open.filter((alert) => isShelved(alert, at));
  const waiting = open.filter((alert) => !isShelved(alert, at));
  const heatSourceOf = (id) => containers.get(id)?.heatSource ?? null;
  drawGroups(list, { alerts: waiting, heatSourceOf, changed, make: makeAlert });
  shelvedPart.hidden = put.length === 0;
  setText(shelvedPart.querySelector('summary'), `${count(put.length, texts.pausedAlertCount)}`);
  reconcile(
    shelvedPart.querySelector('ul'),
    put,
    (alert) => alert.id,
    (alert) => makeAlert(alert, changed),
    updateAlert,
  );
  return waiting.length + put.length;
}

/** All open alerts, with those that are paused. */
export async function openAlerts() {
  const lists = await Promise.all([api.alerts('open'), api.alerts('shelved')]);
  return lists.flat();
}

/** Announces an alert to screen readers when it was raised or is no longer shelved. */
export function announceChange(before, alert) {
  if (alert.state === 'active' && !alert.acknowledged && before?.state !== 'active') {
    announce(
      texts.newAlert(conditionOf(alert.kind).title, alert.containerName ?? alert.container, alertDetail(alert, now())),
    );
  }
}
