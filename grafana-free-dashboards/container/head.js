// The state of the container now: values, alerts, and the button for an opening.

import { api } from '../shared/api.js';
import { actionButton, byId, h, reconcile, setText } from '../shared/dom.js';
import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';
import { now } from '../shared/clock.js';
import { makeAlert, updateAlert } from '../shared/alert-item.js';
import { makeCard, updateCard } from '../shared/card.js';
import { missingHours } from '../shared/container-words.js';
import { byUrgency, isOpen } from '../shared/alert-words.js';

const OPEN_MINUTES = 10;

/** The large form of the shelf's card, with the same words. */
export function makeNow(container) {
  byId('now').append(
    h(
      'p',
      { class: 'back' },
      h('a', { href: '/' }, '← Shelf'),
      ' · ',
      h('a', { href: `/labels.html?container=${encodeURIComponent(container.id)}` }, 'Label'),
    ),
    makeCard(container, { large: true }),
  );
}

export function updateNow(container, setup, live) {
  const card = byId('now').querySelector('article');
  document.title = `${container.name} · Tepidarium`;
  updateCard(card, { container, day: null, maxGapMinutes: setup.maxGapMinutes, live });
  setText(card.querySelector('.tile.heat .note'), heatNote(container.heat));
}

function heatNote(heat) {
  if (!heat || !(heat.coveredHours > 0)) return 'no readings to add up yet';
  const parts = [`since ${t.moment(heat.from, now())}, from ${t.hours(heat.coveredHours)} of readings`];
  if (heat.gapHours > 0.05)
    parts.push(
      `${missingHours(heat)}, so between ${f.degreeHoursNumber(heat.lower)} and ${f.degreeHoursNumber(heat.upper)}`,
    );
  if (heat.sensorError)
    parts.push(
      `between ${f.degreeHoursNumber(heat.sensorLower)} and ${f.degreeHoursNumber(heat.sensorUpper)} as the sensor may be off`,
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
  const button = actionButton({ class: 'main', id: 'open-now' }, 'I am opening it', output, async () =>
    opened(await api.open(id, OPEN_MINUTES)),
  );
  const end = actionButton({ id: 'end-opening' }, 'It is closed again', output, async () => {
    await api.endOpening(id);
    opened(null);
  });
  byId('opening').append(
    h(
      'div',
      {},
      h('h2', { id: 'opening-title' }, 'A check'),
      h('p', { id: 'opening-words' }),
      h('div', { class: 'actions' }, button, end),
      output,
    ),
    h(
      'p',
      { class: 'caution' },
      h('strong', {}, 'Mould. '),
      'Open it where air moves, wear a mask, and do not lean over it: warm, moist containers can let out many spores at once. Wash your hands. Switch a mat off before you wet or lift anything on it.',
    ),
  );
}

export function updateOpening(container) {
  const until = container.opening && Date.parse(container.opening.until);
  const open = until > now();
  byId('opening').classList.toggle('is-open', Boolean(open));
  setText(
    byId('opening-words'),
    open
      ? `Open until ${t.clockTime(until)}: light until then counts as an opening, not as a leak. Pressing again gives ten minutes from then on.`
      : 'Press before you open it. Light in the next 10 minutes then counts as an opening, not as a light leak.',
  );
  byId('end-opening').hidden = !open;
  setText(byId('open-now'), open ? 'Ten minutes more' : 'I am opening it');
}
