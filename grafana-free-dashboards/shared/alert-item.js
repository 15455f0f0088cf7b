// One alert in a list, with its buttons.

import { alertDetail, alertStanding, isShelved } from './alert-words.js';
import { api } from './api.js';
import { now } from './clock.js';
import { conditionOf } from './conditions.js';
import { containerLink } from './container-link.js';
import { h, setText, whileBusy } from './dom.js';
import { texts } from './texts.js';

export const PAUSE_MINUTES = 60;

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
          'aria-label': texts.acknowledge(conditionOf(alert.kind).title, name),
          on: { click: act(() => api.acknowledge(alert.id)) },
        },
        texts.acknowledge2,
      ),
      h(
        'button',
        {
          type: 'button',
          class: 'plain shelve',
          'aria-label': texts.pauseForOneHour(conditionOf(alert.kind).title, name),
          on: { click: act(() => api.shelve(alert.id, PAUSE_MINUTES)) },
        },
        texts.pauseFor1H,
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
