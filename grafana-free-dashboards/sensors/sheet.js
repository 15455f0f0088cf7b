// The sheet of one sensor: figures, changes of its placement, name and note, corrections.

import { ageOf } from '../shared/ages.js';
import { now } from '../shared/clock.js';
import { h, setText } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { nameOf, placeOf, placeWords } from '../shared/sensor-place.js';
import * as t from '../shared/time-format.js';
import { makeActions } from './actions.js';
import { makeCalibration } from './calibration.js';
import { makeChangeResult } from './change-result.js';
import { batteryReason } from './change-words.js';
import { makeConstant, updateConstant } from './constant.js';
import { batteryWords, gapWords, intervalWords, lateWords, valueWords } from './list-words.js';
import { makeFaults } from './faults.js';
import { makePlacements } from './placements.js';
import { texts } from './texts.js';

/**
 * @param known maps of all sensors and containers, and `changed`, which takes sensors from an answer
 */
export function makeSheet(host, key, known) {
  const sensor = () => known.sensors.get(key);
  const title = h('h1');
  const topic = h('p', { class: 'quiet' });
  const verdict = h('p', { class: 'lead' });
  const note = h('p', { class: 'note' });
  const facts = h('dl', { class: 'facts' });
  const result = makeChangeResult(known);
  const actions = makeActions({ key, known, result });
  const placements = makePlacements({ key, known, result });
  const constant = makeConstant(key);
  const calibration = makeCalibration(sensor());
  const faults = makeFaults(key);
  host.append(
    h('p', {}, h('a', { href: '/sensors.html' }, texts.allSensors)),
    title,
    topic,
    verdict,
    note,
    facts,
    result.element,
    faults.element,
    h('section', {}, h('h2', {}, texts.change), actions.element),
    h('section', {}, h('h2', {}, texts.placements), placements.element),
    h('section', {}, h('h2', {}, texts.correction), constant, calibration.element),
  );

  function update() {
    const one = sensor();
    setText(title, nameOf(one));
    setText(topic, one.name ? texts.sendsAs(one.sensor) : '');
    setText(verdict, verdictWords(one, known.containers));
    setText(note, one.note ?? '');
    drawFacts(facts, one);
    actions.update();
    placements.update();
    updateConstant(constant, one);
    faults.update(one);
  }

  return {
    update,
    redraw: () => {
      result.redraw();
      calibration.redraw();
      faults.redraw();
      drawn = '';
      update();
    },
  };
}

function verdictWords(sensor, containers) {
  const at = now();
  const where = sensor.retired
    ? texts.retiredSince2(t.moment(sensor.retired, at))
    : texts.itIs(placeWords(placeOf(sensor, at), containers));
  const late = lateWords(sensor.activity);
  const low = sensor.activity?.battery?.low && !sensor.retired ? texts.itsBatteryIsLowChange : '';
  const silent = late ? texts.itIsCheckItsSupply(late) : '';
  const faulty = sensor.faults?.ongoing > 0 ? texts.itsReadingsShowAFault : '';
  return `${where}${silent}${low}${faulty}`;
}

let drawn = '';

/** Draws only what changed: a live value would otherwise undo a selection each second. */
function drawFacts(place, sensor) {
  const list = factsOf(sensor);
  const text = JSON.stringify([list, sensor.lastHeard, sensor.device?.at]);
  if (text === drawn) return;
  drawn = text;
  place.replaceChildren(
    ...list.map(([title, words, at]) => h('div', {}, h('dt', {}, title), h('dd', {}, at && [ageOf(at), ': '], words))),
  );
}

function factsOf(sensor) {
  const { activity, device } = sensor;
  const usual = intervalWords(activity);
  return [
    [texts.lastReading, sensor.lastHeard ? valueWords(sensor) : texts.noneYet2, sensor.lastHeard],
    [texts.firstReading, sensor.firstHeard ? t.stamp(sensor.firstHeard, now()) : f.UNKNOWN],
    [texts.interval, usual ? texts.usually(usual) : texts.notKnownYet],
    [texts.late, activity?.late ? lateWords(activity) : texts.no],
    [
      texts.gaps2,
      [gapWords(activity?.gaps.day, '24 h'), gapWords(activity?.gaps.week)].filter(Boolean).join(' · ') || f.UNKNOWN,
    ],
    [
      texts.battery,
      [batteryWords(sensor), batteryReason(activity?.battery)].filter(Boolean).join('. ') || texts.notSent,
    ],
    [texts.signal, device?.rssi ? texts.dbm(f.number(device.rssi)) : texts.notSent, device?.rssi ? device.at : null],
    [texts.firmware2, device?.firmware ?? texts.notSent],
  ];
}
