// The state of the container now: values, alerts, and the button for an opening.

import { api } from '../shared/api.js';
import { actionButton, byId, h, reconcile, setText } from '../shared/dom.js';
import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';
import { now } from '../shared/clock.js';
import { makeAlert, updateAlert } from '../shared/alert-item.js';
import { heatBegins, makeCard, updateCard } from '../shared/card.js';
import { missingHours } from '../shared/container-words.js';
import { byUrgency, isOpen } from '../shared/alert-words.js';
import { texts } from './texts.js';

const OPEN_MINUTES = 10;

/** The large form of the shelf's card, with the same words. */
export function makeNow(container) {
  byId('now').append(
    h(
      'p',
      { class: 'back' },
      h('a', { href: '/' }, texts.shelf),
      ' · ',
      h('a', { href: `/labels.html?container=${encodeURIComponent(container.id)}` }, texts.label),
    ),
    makeCard(container, { large: true }),
  );
}

export function updateNow(container, setup, live) {
  const card = byId('now').querySelector('article');
  document.title = `${container.name} · Tepidarium`;
  updateCard(card, { container, day: null, maxGapMinutes: setup.maxGapMinutes, live });
  setText(card.querySelector('.tile.heat .note'), heatNote(container));
}

function heatNote(container) {
  const { heat } = container;
  if (!heat || !(heat.coveredHours > 0)) return heatBegins(container);
  const parts = [texts.sinceFromOfReadings(t.moment(heat.from, now()), t.hours(heat.coveredHours))];
  if (heat.gapHours > 0.05)
    parts.push(
      texts.soBetweenAnd(missingHours(heat), f.degreeHoursNumber(heat.lower), f.degreeHoursNumber(heat.upper)),
    );
  if (heat.sensorError)
    parts.push(
      texts.betweenAndAsTheSensor(f.degreeHoursNumber(heat.sensorLower), f.degreeHoursNumber(heat.sensorUpper)),
    );
  return `${parts.join('; ')}.`;
}

export function updateAlerts(container, changed) {
  const open = (container.alerts ?? []).filter(isOpen).sort(byUrgency(now()));
  byId('alerts-part').hidden = open.length === 0;
  reconcile(
    byId('attention'),
    open,
    (alert) => alert.id,
    (alert) => makeAlert(alert, changed),
    updateAlert,
  );
}

/** @param opened called with the opening that goes on, or null when it was ended */
export function makeOpening(id, opened) {
  const output = h('div', { class: 'output', role: 'status' });
  const button = actionButton({ class: 'main', id: 'open-now' }, texts.iAmOpeningIt, output, async () =>
    opened(await api.open(id, OPEN_MINUTES)),
  );
  const end = actionButton({ id: 'end-opening' }, texts.itIsClosedAgain, output, async () => {
    await api.endOpening(id);
    opened(null);
  });
  byId('opening').append(
    h(
      'div',
      {},
      h('h2', { id: 'opening-title' }, texts.aCheck),
      h('p', { id: 'opening-words' }),
      h('div', { class: 'actions' }, button, end),
      output,
    ),
    h('p', { class: 'caution' }, h('strong', {}, texts.mould), texts.openItWhereAirMoves),
  );
}

export function updateOpening(container) {
  const until = container.opening && Date.parse(container.opening.until);
  const open = until > now();
  byId('opening').classList.toggle('is-open', Boolean(open));
  setText(byId('opening-words'), open ? texts.openUntilLightUntilThen(t.clockTime(until)) : texts.pressBeforeYouOpenIt);
  byId('end-opening').hidden = !open;
  setText(byId('open-now'), open ? texts.tenMinutesMore : texts.iAmOpeningIt);
}
