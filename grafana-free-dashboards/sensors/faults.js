// The faults of one sensor in the last 30 days, on its sheet.

import { api } from '../shared/api.js';
import { h, setText } from '../shared/dom.js';
import { drawFaults } from '../shared/fault-list.js';
import { summaryWords } from '../shared/fault-words.js';
import { texts } from './texts.js';

const FIRST = 8;

export function makeFaults(key) {
  const summary = h('p', { 'aria-live': 'polite' }, texts.askingTheService);
  const list = h('ul', { class: 'rows' });
  const more = h('button', { type: 'button', class: 'plain', hidden: true, on: { click: () => showAll() } });
  let showsAll = false;
  let known = '';

  async function load() {
    const { faults } = await api.sensorFaults(key, {});
    setText(summary, texts.last30Days(summaryWords(faults)));
    drawFaults(list, showsAll ? faults : faults.slice(0, FIRST), load);
    more.hidden = showsAll || faults.length <= FIRST;
    setText(more, texts.showAll(faults.length));
  }

  function showAll() {
    showsAll = true;
    refresh();
  }

  const refresh = () => load().catch((problem) => setText(summary, problem.message));

  return {
    element: h('section', {}, h('h2', {}, texts.faults), summary, list, more),
    /** Loads the list again if the summary of the sensor has changed. */
    update(sensor) {
      const next = JSON.stringify(sensor.faults);
      if (next === known) return;
      known = next;
      refresh();
    },
    /** Shows temperatures in the other unit. */
    redraw: refresh,
  };
}
