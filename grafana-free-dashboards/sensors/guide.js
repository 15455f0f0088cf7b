// The guided calibration: prepare, wait until the reading has settled, take it, go on. Survives a closed page.

import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';
import { announce, h, setText } from '../shared/dom.js';
import { field, form, Problems, typedIn } from '../shared/form.js';
import * as t from '../shared/time-format.js';
import { correctionWords, meanWords } from './calibration-words.js';
import { keep, recall } from './guide-memory.js';
import { PROCEDURES, procedureOf } from './guide-procedures.js';
import { canTake, missingTime, pointOf, settleWords, unitOf, value } from './guide-words.js';
import { texts } from './texts.js';

const ASK_EVERY_MS = 5_000;

/** @param taken is called with the sensor's calibration after a point was added */
export function makeGuide(sensor, taken) {
  const element = h('div', { class: 'guide' });
  let state = recall(sensor);
  let asking = null;

  /** Goes to a step, and remembers it. */
  function go(next) {
    state = next;
    keep(sensor, next);
    draw();
  }

  function draw() {
    clearInterval(asking);
    element.replaceChildren(...(state === null ? choose() : state.placedAt ? waiting() : preparing()));
  }

  function choose() {
    const procedure = h(
      'select',
      { name: 'procedure' },
      PROCEDURES.map(({ key, title }) => h('option', { value: key }, title)),
    );
    return [
      h('div', { class: 'fields' }, field(texts.stepByStep, procedure)),
      h(
        'div',
        { class: 'actions' },
        startButton(() => procedure.value, texts.start),
      ),
    ];
  }

  const startButton = (key, words) =>
    h('button', { type: 'button', on: { click: () => go({ procedure: key(), begunAt: Date.now() }) } }, words);

  const stopButton = (words) => h('button', { type: 'button', class: 'plain', on: { click: () => go(null) } }, words);

  function preparing() {
    const procedure = procedureOf(state.procedure);
    return [
      h('h3', {}, procedure.title),
      h(
        'ol',
        {},
        procedure.prepare.map((line) => h('li', {}, line)),
      ),
      h(
        'div',
        { class: 'actions' },
        stopButton(texts.stop),
        h('button', { type: 'button', on: { click: () => go({ ...state, placedAt: Date.now() }) } }, texts.itIsInPlace),
      ),
    ];
  }

  function waiting() {
    const procedure = procedureOf(state.procedure);
    const words = h('p', { class: 'lead', role: 'status' });
    const time = h('p', { class: 'help' });
    let settling = null;
    const made = form({
      content: h('div', { class: 'fields' }, procedure.asks.map(askedField)),
      submit: texts.takeTheValue,
      other: stopButton(texts.stop),
      save: async (typed) => {
        const { body, problems } = pointOf(procedure, settling, typedIn(typed));
        if (problems.length > 0) throw new Problems(problems);
        finished(procedure, await api.addCalibrationPoint(sensor, body));
      },
    });
    const take = made.querySelector('button[type=submit]');
    take.disabled = true;

    async function look() {
      try {
        settling = await api.settling(sensor, procedure.quantity);
        setText(words, settleWords(procedure, settling));
      } catch (problem) {
        settling = null;
        setText(words, problem.message);
      }
      const ready = canTake(procedure, state?.placedAt ?? 0, settling, Date.now());
      if (ready && take.disabled) announce(texts.settledTheValueCanBe);
      take.disabled = !ready;
      setText(take, ready ? texts.take(value(procedure.quantity, settling.mean)) : texts.takeTheValue);
      setText(time, timeWords(procedure));
    }
    asking = setInterval(() => element.isConnected && look(), ASK_EVERY_MS);
    look();
    return [h('h3', {}, procedure.title), words, time, made];
  }

  function timeWords(procedure) {
    if (!state?.placedAt) return '';
    const missing = missingTime(procedure, state.placedAt, Date.now());
    const since = texts.inPlaceSince(t.moment(state.placedAt, now()));
    if (missing === 0) return since;
    return texts.itNeedsMoreYouCan(since, t.duration(missing));
  }

  function askedField(name) {
    const input = h('input', { name, inputmode: 'decimal', autocomplete: 'off' });
    const { quantity } = procedureOf(state.procedure);
    return {
      trueValue: () => field(texts.theBetterInstrumentShows(unitOf(quantity)), input),
      uncertainty: () => field(texts.itsUncertainty(unitOf(quantity)), input, texts.halfOfTheInIts),
      saltTemperature: () => field(texts.temperatureOfTheJar2(unitOf('temperature')), input),
    }[name]();
  }

  function finished(procedure, calibration) {
    go(null);
    taken(calibration);
    const correction = calibration.corrections.find((one) => one.quantity === procedure.quantity);
    const next = procedureOf(procedure.next);
    element.replaceChildren(
      h('p', { class: 'done', role: 'status' }, texts.takenAllFiguresFollowAlso),
      h('p', {}, h('strong', {}, correctionWords(correction))),
      h('p', {}, meanWords(correction)),
      h('p', {}, texts.aSecondPointFarFrom),
      h(
        'div',
        { class: 'actions' },
        stopButton(texts.done),
        startButton(() => next.key, next.title),
      ),
    );
  }

  draw();
  return { element, begun: state !== null, redraw: draw };
}
