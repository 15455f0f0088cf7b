// Suggests openings that nobody announced but that light, temperature and humidity show.

import { api } from '../shared/api.js';
import { actionButton, byId, h, reconcile } from '../shared/dom.js';
import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';
import { now } from '../shared/clock.js';
import { texts } from './texts.js';

const LOOK_BACK_MS = 14 * 86_400_000;

/** @param recorded called when one has become an opening, since the charts then mark it */
export async function loadSuggested(id, recorded) {
  const found = await api.suggestedOpenings(id, { from: now() - LOOK_BACK_MS, to: now() });
  byId('suggested-part').hidden = found.length === 0;
  const settled = (item) => {
    item.remove();
    byId('suggested-part').hidden = byId('suggested').children.length === 0;
  };
  reconcile(
    byId('suggested'),
    [...found].reverse(),
    (one) => `${one.from}/${one.until}`,
    (one) => makeSuggested(id, one, settled, recorded),
  );
}

function makeSuggested(id, one, settled, recorded) {
  const output = h('div');
  const yes = actionButton({}, texts.yesThatWasMe, output, async () => {
    await api.recordOpening(id, one);
    settled(item);
    recorded();
  });
  const no = actionButton({ class: 'plain' }, texts.no2, output, async () => {
    await api.declineOpening(id, one);
    settled(item);
  });
  const item = h(
    'li',
    {},
    h(
      'p',
      {},
      h('strong', {}, `${t.stamp(one.from, now())}, ${t.duration(Date.parse(one.until) - Date.parse(one.from))}`),
      texts.upTo(f.lux(one.peakLux)),
      signs(one),
    ),
    h('div', { class: 'actions' }, yes, no),
    output,
  );
  return item;
}

function signs({ temperatureChange, humidityChange }) {
  const known = [
    temperatureChange === null ? null : texts.temperature2(f.temperatureChange(temperatureChange)),
    humidityChange === null ? null : texts.humidity2(f.humidityChange(humidityChange)),
  ].filter(Boolean);
  return known.length === 0 ? '.' : `; ${known.join(', ')}.`;
}
