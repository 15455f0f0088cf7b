// One chart with its title, its sentence, the values at the cursor, its figures as a table, and buttons that save it.

import { h, setText } from '../shared/dom.js';
import { chartWords, quantityOf } from '../shared/fault-words.js';
import { inSentence } from '../shared/text.js';
import { createChart } from './chart.js';
import { csvOf } from './figures.js';
import { figuresTable } from './figures-table.js';
import { keyOf } from './key.js';
import { saveFile, savePicture } from './save.js';
import { momentWords, sentence } from './sentence.js';
import { texts } from './texts.js';

/**
 * @param name of the quantity, or heat; @param spec see specs.js
 * @param actions onZoom(from, to), onReset(); sync: name of the charts that share a cursor
 */
export function makePanel(name, spec, actions) {
  const heading = h('h3', {});
  const readout = h('p', { class: 'readout' });
  const host = h('div', { class: 'plot', role: 'img', data: { chart: name } });
  const words = h('p', { class: 'chart-sentence' });
  const faults = h('p', { class: 'panel-key panel-faults', hidden: true });
  const empty = h('p', { class: 'nothing quiet', hidden: true });
  const lineKey = h('p', { class: 'panel-key line-key', hidden: true });
  const figures = h('div', { class: 'table-place' });
  const details = h(
    'details',
    { class: 'chart-figures', on: { toggle: () => drawFigures() } },
    h('summary', {}, texts.theSameAsATable),
    figures,
  );
  const tools = h('div', { class: 'chart-tools' }, details, saveButtons());
  const element = h(
    'section',
    { class: 'panel', 'aria-label': name },
    h('div', { class: 'panel-head' }, heading, readout),
    words,
    lineKey,
    h('div', { class: 'plot-place' }, host, empty),
    spec.key && h('p', { class: 'panel-key quiet' }, spec.key),
    faults,
    tools,
  );
  let shown = { sets: [], columns: [[]], marks: [], range: { from: 0, to: 1 }, follows: true };
  let chart = null;

  function saveButtons() {
    const button = (title, label, click) =>
      h('button', { type: 'button', class: 'plain', 'aria-label': label, on: { click } }, title);
    return h(
      'div',
      { class: 'actions' },
      button(texts.png, texts.saveAsPicture, savePng),
      button(texts.csv, texts.saveFigures, () =>
        saveFile(fileName('csv'), new Blob([csvOf(shown.sets, { quantity: name, unit: spec.unit() })], CSV)),
      ),
    );
  }

  const fileName = (ending) => {
    const [from, to] = [shown.range.from, shown.range.to].map((at) => new Date(at).toISOString().slice(0, 10));
    return `${name}-${from}-${to}.${ending}`;
  };

  function savePng() {
    const names = shown.sets.map((set) => set.name).join(', ');
    const lines = [
      { text: `${spec.title()}: ${names}`, bold: true },
      { text: sentence(shown.sets, spec, shown.follows) },
      ...(shown.sets.length > 1
        ? shown.sets.map((set, i) => ({ text: `— ${set.name}`, color: spec.series[i].color }))
        : []),
    ];
    savePicture(fileName('png'), chart.picture(), lines, getComputedStyle(host));
  }

  function drawFigures() {
    if (details.open) figures.replaceChildren(figuresTable(shown, spec));
  }

  const onCursor = (index) => {
    const at = shown.columns[0][index];
    setText(readout, at === undefined ? '' : momentWords(shown.sets, spec, at));
  };

  return {
    name,
    element,
    /** @param next sets: see sentence.js; columns for the chart; marks; range: {from, to}; follows: whether it ends now */
    show(next) {
      shown = next;
      const said = sentence(next.sets, spec, next.follows);
      setText(heading, spec.title());
      element.setAttribute('aria-label', spec.title());
      empty.hidden = said !== '';
      element.hidden = spec.rare === true && said === '';
      if (element.hidden) return;
      chart ??= createChart(host, { ...spec, ...actions, onCursor });
      const what = spec.sum ? texts.heatWasAddedUp : texts.wasHeard(inSentence(quantityOf(name)));
      setText(empty, said === '' ? texts.nothingToDraw(what) : '');
      setText(words, said);
      words.hidden = tools.hidden = said === '';
      lineKey.hidden = next.sets.length < 2;
      if (!lineKey.hidden) lineKey.replaceChildren(...keyOf(next.sets, spec));
      const faultWords = chartWords(next.marks);
      faults.hidden = faultWords === '';
      setText(faults, faultWords);
      host.setAttribute('aria-label', `${spec.title()}. ${said} ${faultWords}`);
      chart.update({ columns: next.columns, from: next.range.from, to: next.range.to, marks: next.marks });
      drawFigures();
    },
    /** Draws another range from the samples at hand, before finer ones come. */
    zoom: (range) => chart?.update({ from: range.from, to: range.to }),
    pointAt: (at) => chart?.pointAt(at),
    destroy: () => chart?.destroy(),
  };
}

const CSV = { type: 'text/csv;charset=utf-8' };
