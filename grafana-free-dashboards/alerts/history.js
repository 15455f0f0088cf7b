// The history of alerts: filter, list, and the transitions of each.

import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';
import { h, problemBox, reconcile, setText } from '../shared/dom.js';
import { alertDetail } from '../shared/alert-words.js';
import { conditionOf } from '../shared/conditions.js';
import { MOST_SHOWN, nameOf, showTold, title } from './lists.js';
import { historyLine, newestFirst, transitionTime, transitionWords } from './words.js';
import { texts } from './texts.js';

const different = (pairs) =>
  [...new Map(pairs)].map(([value, text]) => ({ value, text })).sort((a, b) => a.text.localeCompare(b.text));

/** The choices of the filter: all containers and all kinds in the history. */
export const historyChoices = (alerts) => ({
  container: [{ value: '', text: texts.all }, ...different(alerts.map((alert) => [alert.container, nameOf(alert)]))],
  kind: [
    { value: '', text: texts.all },
    ...different(alerts.map((alert) => [alert.kind, conditionOf(alert.kind).title])),
  ],
});

/** The alerts that match the filter. An empty choice matches all. */
export const narrowed = (alerts, { container, kind }) =>
  alerts.filter((alert) => (!container || alert.container === container) && (!kind || alert.kind === kind));

/** Newest first. The transitions of an alert are fetched when it is unfolded, and again when it changes. */
export function drawHistory(list, alerts, toldOf) {
  reconcile(
    list,
    newestFirst(alerts).slice(0, MOST_SHOWN),
    (alert) => alert.id,
    makePast,
    (item, alert) => {
      updatePast(item, alert);
      showTold(item, toldOf(alert.id));
    },
  );
}

function makePast(alert) {
  const place = h('ol', { class: 'transitions' });
  const details = h(
    'details',
    { on: { toggle: () => details.open && showTransitions(alert, place) } },
    h('summary', {}, texts.whatHappenedWhen),
    place,
  );
  return h(
    'li',
    { class: 'past' },
    title(alert),
    h('p', { class: 'when' }),
    h('p', { class: 'late quiet' }, texts.foundLateReadingsThatCame),
    h('div', { class: 'told quiet' }),
    details,
  );
}

function updatePast(item, alert) {
  const changed = JSON.stringify(alert);
  Object.assign(item.dataset, { alert: alert.id, kind: alert.kind, late: alert.foundLate });
  setText(item.querySelector('.when'), `${historyLine(alert, now())}. ${alertDetail(alert, now())}`);
  item.querySelector('.late').hidden = !alert.foundLate;
  const details = item.querySelector('details');
  if (details.open && item.dataset.drawn !== changed) showTransitions(alert, details.querySelector('ol'));
  item.dataset.drawn = changed;
}

async function showTransitions({ id, kind }, place) {
  try {
    const { transitions } = await api.alert(id);
    place.replaceChildren(
      ...transitions.map((one) =>
        h(
          'li',
          { data: { what: one.what } },
          h('span', { class: 'quiet' }, transitionTime(one, now())),
          ' ',
          transitionWords(one, kind, now()),
        ),
      ),
    );
  } catch (problem) {
    place.replaceChildren(h('li', {}, problemBox(problem)));
  }
}
