// The card of one container on the shelf. Updated in place, which keeps focus and selection.

import { now } from './clock.js';
import { containerLink } from './container-link.js';
import { CONTAINER_KINDS, freshness, heatBounds, standing } from './container-words.js';
import { h, setText } from './dom.js';
import * as f from './format.js';
import { gauge } from './gauge.js';
import { extremes, spark } from './spark.js';
import { QUANTITIES } from './quantities.js';
import { tile, updateTile } from './tile.js';
import * as t from './time-format.js';
import { texts } from './texts.js';

export const SIGNS = { act: '!', seen: '…', silent: '?', watch: '~', open: '○', empty: '–', unsure: '?', fine: '✓' };

/** On the shelf the name is a link; on the container's own page it is the title, and the charts replace the thin line. */
export function makeCard(container, { large = false } = {}) {
  const values = QUANTITIES.map((quantity) => tile(quantity.key, quantity.title));
  const name = large
    ? h('h1', { id: `name-${container.id}`, class: 'name' })
    : h('h3', { id: `name-${container.id}` }, h('a', { class: 'name', href: containerLink(container.id) }));
  return h(
    'article',
    {
      class: large ? 'card large' : 'card',
      data: { container: container.id },
      'aria-labelledby': `name-${container.id}`,
    },
    h(
      'header',
      {},
      name,
      h('p', { class: 'badge' }, h('span', { class: 'sign', 'aria-hidden': 'true' }), h('span', { class: 'word' })),
      h('p', { class: 'about quiet' }),
    ),
    h('div', { class: 'gauge-place' }),
    h('dl', { class: 'tiles' }, values, tile('heat', texts.heatSoFar)),
    h('ul', { class: 'lines' }),
    !large &&
      h(
        'figure',
        { class: 'spark-place', hidden: true },
        h('div'),
        h(
          'figcaption',
          { class: 'quiet' },
          h('span', {}, texts.n24HAgo),
          h('span', { class: 'day-range' }),
          h('span', {}, texts.now2),
        ),
      ),
  );
}

export function updateCard(card, { container, day, maxGapMinutes, live = true }) {
  const at = now();
  const state = asHeard(standing(container, at, maxGapMinutes), live);
  card.dataset.level = state.level;
  setText(card.querySelector('.name'), container.name);
  setText(card.querySelector('.badge .sign'), SIGNS[state.level]);
  setText(card.querySelector('.badge .word'), state.title);
  setText(card.querySelector('.about'), about(container));
  for (const quantity of QUANTITIES) updateTile(card, container, quantity, at, maxGapMinutes);
  updateHeat(card.querySelector('.tile.heat'), container);
  updateLines(card.querySelector('.lines'), state);
  const temperature = freshness(container, 'temperature', at, maxGapMinutes);
  drawGauge(card.querySelector('.gauge-place'), container, temperature, day);
  drawDay(card.querySelector('.spark-place'), container, day);
}

export function about(container) {
  const kind = CONTAINER_KINDS[container.kind] ?? container.kind;
  return [kind, container.heatSource ?? texts.noHeatSourceNamed, container.room].filter(Boolean).join(' · ');
}

/** Why there is no heat yet: it is counted between two readings. */
export const heatBegins = ({ latest }) => (latest?.temperature ? texts.countsFromTheNext : texts.noReadingsToAddUp);

function updateHeat(part, container) {
  const { heat } = container;
  setText(part.querySelector('.figure'), heat && heat.coveredHours > 0 ? f.degreeHours(heat.degreeHours) : f.UNKNOWN);
  const note =
    !heat || !(heat.coveredHours > 0)
      ? heatBegins(container)
      : heatBounds(heat) || texts.since(t.moment(heat.from, now()));
  setText(part.querySelector('.note'), note);
}

/** Without a sensor, the next step is to place one. */
function updateLines(list, { level, lines }) {
  if (list.dataset.said === lines.join('\n')) return;
  list.dataset.said = lines.join('\n');
  list.replaceChildren(...lines.map((line) => h('li', {}, line)));
  if (level === 'empty') list.lastChild.append(' ', h('a', { href: '/sensors.html' }, texts.placeASensor));
}

/** Redraws only if the key has changed. */
function drawIfChanged(place, key, draw) {
  if (place.dataset.drawn === key) return;
  place.dataset.drawn = key;
  place.replaceChildren(draw());
}

function drawGauge(place, container, temperature, day) {
  const { low, high } = container.band.temperature;
  const value = temperature.state === 'fresh' ? temperature.latest.value : null;
  const dayRange = day ? extremes(day.series) : null;
  drawIfChanged(place, JSON.stringify([value, low, high, dayRange, f.temperatureUnit()]), () =>
    gauge({ value, low, high, dayRange }),
  );
}

function drawDay(figure, container, day) {
  if (!figure) return;
  const dayRange = day && extremes(day.series);
  figure.hidden = !dayRange;
  if (!dayRange) return;
  const { low, high } = container.band.temperature;
  const [lowest, highest] = [dayRange.min, dayRange.max].map((value) => f.temperature(value));
  const words = lowest === highest ? lowest : texts.to(lowest, highest);
  setText(figure.querySelector('.day-range'), words);
  drawIfChanged(figure.firstElementChild, JSON.stringify([day.to, low, high, f.temperatureUnit()]), () =>
    spark({ ...day, low, high, label: texts.temperatureOverThePast24(words) }),
  );
}

/** Without the live stream, `fine` becomes `unsure`. */
export function asHeard(state, live) {
  if (live || state.level !== 'fine') return state;
  return { level: 'unsure', title: texts.wasInOrder, lines: [texts.inOrderWhenLastHeard] };
}
