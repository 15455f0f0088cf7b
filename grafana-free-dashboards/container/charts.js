// The four courses of a container: temperature, humidity, light, heat so far. They share one stretch of time.

import { createChart } from '../shared/chart.js';
import { now } from '../shared/clock.js';
import { byId, h, setText } from '../shared/dom.js';
import { chartWords, marksOfFaults, quantityOf } from '../shared/fault-words.js';
import * as f from '../shared/format.js';
import { RARE } from '../shared/quantities.js';
import { columnsOf, heatColumns, join, marksOf, within } from '../shared/series.js';
import { extent } from '../shared/time-range.js';
import { pointWords, restWords, specs } from './chart-specs.js';
import { inSentence } from '../shared/text.js';
import { texts } from './texts.js';

/** The kinds of marks that each chart shows. */
const LEAKS = ['daylight', 'lamp', 'other'];
const MARKS_ON = {
  temperature: ['cold', 'hot', 'opening', ...LEAKS],
  humidity: ['dry', 'opening'],
  light: [...LEAKS, 'opening'],
  heat: ['cold', 'hot'],
};

/** A fault is marked on the chart of its quantity; the heat chart shows what was left out of the temperature. */
function isOn(name, { kind, quantity, words }) {
  if (!words) return (MARKS_ON[name] ?? ['opening']).includes(kind);
  if (name === 'heat') return kind === 'excluded' && (quantity === 'temperature' || quantity === null);
  return quantity === name || quantity === null;
}

export function makeCharts({ getBand, onZoom, onReset }) {
  const panels = Object.entries(specs(getBand)).map(([name, spec]) => makePanel(name, spec, { onZoom, onReset }));
  byId('charts').replaceChildren(...panels.map((panel) => panel.element));
  setText(byId('mark-key'), texts.lettersAboveTheChartsC);
  return {
    /** @param data answers of the service for this range; @param zone the service's, for its days */
    show(data, range, zone) {
      const columns = columnsFor(data, range, zone);
      const marks = [...marksOf(data, Math.min(range.to, now())), ...marksOfFaults(data.faults?.faults)].sort(
        (a, b) => a.from - b.from,
      );
      for (const panel of panels)
        panel.show(
          columns[panel.name],
          range,
          marks.filter((mark) => isOn(panel.name, mark)),
        );
    },
    destroy: () => panels.forEach((panel) => panel.destroy()),
  };
}

function columnsFor({ readings, room, heat }, range, zone) {
  const inside = columnsOf(readings.temperature, f.toUnit);
  const roomLine = columnsOf(room?.temperature, f.toUnit).slice(0, 2);
  return {
    temperature: join(inside, roomLine),
    humidity: columnsOf(readings.humidity),
    light: columnsOf(readings.light),
    ...Object.fromEntries(RARE.map(({ key }) => [key, columnsOf(readings[key])])),
    heat: within(
      heatColumns(
        heat?.byDay ?? [],
        zone,
        heat ? { from: Date.parse(heat.from), to: Date.parse(heat.to) } : range,
        f.differenceToUnit,
      ),
      range.from,
      range.to,
    ),
  };
}

function makePanel(name, spec, { onZoom, onReset }) {
  const heading = h('h3', {});
  const readout = h('p', { class: 'readout' });
  const host = h('div', { class: 'plot', role: 'img', data: { chart: name } });
  const faults = h('p', { class: 'panel-key panel-faults', hidden: true });
  const empty = h('p', { class: 'nothing quiet', hidden: true });
  const element = h(
    'div',
    { class: 'panel' },
    h('div', { class: 'panel-head' }, heading, readout),
    h('div', { class: 'plot-place' }, host, empty),
    h('p', { class: 'panel-key quiet' }, spec.key),
    faults,
  );
  let columns = [[], [], [], []];
  let chart = null;

  const onCursor = (index) =>
    setText(
      readout,
      index === null || index === undefined ? restWords(name, columns, spec) : pointWords(name, columns, index, spec),
    );

  return {
    name,
    element,
    show(next, range, marks) {
      columns = next;
      const all = extent(columns);
      setText(heading, spec.title());
      empty.hidden = all !== null;
      element.hidden = spec.rare === true && all === null;
      if (element.hidden) return;
      chart ??= createChart(host, { ...spec, onCursor, onZoom, onReset, sync: 'course' });
      setText(
        empty,
        all === null
          ? texts.nothingToDrawNoIn(
              name === 'heat' ? texts.heatWasAddedUp : texts.wasHeard(inSentence(quantityOf(name))),
            )
          : '',
      );
      const faultWords = chartWords(marks);
      faults.hidden = faultWords === '';
      setText(faults, faultWords);
      host.setAttribute('aria-label', `${spec.title()}. ${restWords(name, columns, spec)}. ${faultWords}`);
      chart.update({ columns, from: range.from, to: range.to, marks });
      setText(readout, restWords(name, columns, spec));
    },
    destroy: () => chart?.destroy(),
  };
}
