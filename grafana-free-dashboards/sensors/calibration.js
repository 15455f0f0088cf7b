// The calibration points of one sensor: the corrections from them, a list, and a form to add one.

import { api } from '../shared/api.js';
import { actionButton, h, table } from '../shared/dom.js';
import * as t from '../shared/time-format.js';
import { now } from '../shared/clock.js';
import { CALIBRATED, METHODS, correctionWords, meanWords, valueOf } from './calibration-words.js';
import { pointForm } from './calibration-form.js';
import { makeGuide } from './guide.js';
import { texts } from './texts.js';

const titleOf = (choices, key) => choices.find((choice) => choice.key === key)?.title ?? key;

/** Closed at first, unless a calibration was begun; loads the points when it is opened. */
export function makeCalibration(sensor) {
  const figures = h('div', { 'aria-live': 'polite' });
  const output = h('div', { role: 'status' });
  const guide = makeGuide(sensor.sensor, show);
  const element = h(
    'details',
    { class: 'calibration', open: guide.begun },
    h('summary', {}, texts.calibrateByPoints),
    h(
      'p',
      { class: 'help' },
      texts.pointsReplaceTheConstantCorrection,
      h('a', { href: '/figures.html#in-words' }, texts.howIsThisWorkedOut),
    ),
    output,
    figures,
    guide.element,
    h('details', { class: 'by-hand' }, h('summary', {}, texts.enterAPoint), pointForm(sensor, show)),
  );
  element.addEventListener('toggle', () => {
    if (element.open) load();
  });

  async function load() {
    try {
      show(await api.calibrationPoints(sensor.sensor));
      output.replaceChildren();
    } catch (error) {
      output.replaceChildren(h('p', { class: 'error' }, error.message));
    }
  }

  function show(answer) {
    figures.replaceChildren(
      ...answer.corrections.flatMap((one) => [
        h('p', { class: 'correction' }, h('strong', {}, correctionWords(one))),
        h('p', {}, meanWords(one)),
      ]),
      answer.points.length === 0 ? h('p', {}, texts.noPointsYet) : points(answer.points),
    );
  }

  function points(all) {
    const columns = [
      { title: texts.when, cell: (one) => t.moment(Date.parse(one.at), now()) },
      { title: texts.quantity, cell: (one) => titleOf(CALIBRATED, one.quantity) },
      { title: texts.reading, class: 'number', cell: (one) => valueOf(one.quantity, one.reading) },
      {
        title: texts.trueValue,
        class: 'number',
        cell: (one) => `${valueOf(one.quantity, one.trueValue)} ± ${valueOf(one.quantity, 2 * one.uncertainty)}`,
      },
      { title: texts.method, cell: (one) => [titleOf(METHODS, one.method), one.note].filter(Boolean).join('; ') },
      { title: '', cell: (one) => remove(one) },
    ];
    return h('div', { class: 'table-place' }, table('', columns, [...all].reverse()));
  }

  function remove(one) {
    const place = h('span');
    const props = { class: 'plain', 'aria-label': texts.remove2(titleOf(CALIBRATED, one.quantity), one.at) };
    const button = actionButton(props, texts.remove, place, async () => {
      await api.removeCalibrationPoint(sensor.sensor, one.id);
      await load();
    });
    return h('span', {}, button, place);
  }

  return { element, redraw: guide.redraw };
}
