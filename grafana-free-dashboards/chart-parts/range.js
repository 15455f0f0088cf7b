// The stretch of time shown: one of four that end now, or any other by zooming. It stands in the address, for sharing
// and for the browser's reload.

import { h } from '../shared/dom.js';
import { now } from '../shared/clock.js';
import { shiftRange } from '../shared/time-range.js';
import { texts } from './texts.js';

const HOUR_MS = 3600_000;
const PRESETS = [
  { key: '24h', title: texts.n24Hours, short: texts.n24H, ms: 24 * HOUR_MS },
  { key: '7d', title: texts.n7Days, short: texts.n7D, ms: 7 * 24 * HOUR_MS },
  { key: '4wk', title: texts.n4Weeks, short: texts.n4Wk, ms: 28 * 24 * HOUR_MS },
  { key: 'all', title: texts.all, short: texts.all, ms: null },
];
const STEPS = [
  ['earlier', texts.earlier],
  ['later', texts.later],
  ['closer', texts.closer],
  ['wider', texts.wider],
];

/** The shortest stretch of a container that was just set up. */
const LEAST_MS = 600_000;

/** From when to when a preset shows: not from before the first reading, which would count as missing. */
export const presetSpan = (ms, begin, to) => ({
  from: Math.max(ms === null ? -Infinity : to - ms, Math.min(begin, to - LEAST_MS)),
  to,
});

export function makeRange(host, { begin, changed }) {
  let preset = PRESETS[0];
  let zoomed = null;
  fromAddress();

  const presetButtons = PRESETS.map((one) =>
    h('button', { type: 'button', 'aria-label': one.title, on: { click: () => choose(one) } }, one.short),
  );
  const stepButtons = STEPS.map(([step, title]) =>
    h(
      'button',
      {
        type: 'button',
        class: 'plain',
        on: { click: () => zoom(...Object.values(shiftRange(current(), step, now()))) },
      },
      title,
    ),
  );
  host.append(h('div', { class: 'presets' }, presetButtons), h('div', { class: 'steps-in-time' }, stepButtons));
  mark();

  function fromAddress() {
    const query = new URLSearchParams(location.search);
    preset = PRESETS.find((one) => one.key === query.get('range')) ?? preset;
    const from = Date.parse(query.get('from'));
    const to = Date.parse(query.get('to'));
    if (to > from) zoomed = { from, to };
  }

  function current() {
    if (zoomed) return zoomed;
    return presetSpan(preset.ms, begin(), now());
  }

  function choose(one) {
    preset = one;
    zoomed = null;
    settle();
  }

  function zoom(from, to) {
    zoomed = { from: Math.round(from), to: Math.round(to) };
    settle();
  }

  function settle() {
    const query = new URLSearchParams(location.search);
    for (const name of ['range', 'from', 'to']) query.delete(name);
    query.set('range', preset.key);
    if (zoomed) {
      query.set('from', new Date(zoomed.from).toISOString());
      query.set('to', new Date(zoomed.to).toISOString());
    }
    history.replaceState(null, '', `?${query}`);
    mark();
    changed();
  }

  function mark() {
    presetButtons.forEach((button, i) => button.setAttribute('aria-pressed', String(!zoomed && PRESETS[i] === preset)));
  }

  return { current, zoom, reset: () => choose(preset), follows: () => zoomed === null };
}
