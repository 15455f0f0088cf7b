// Tables for the stretch shown: limits, openings and leaks, excursions, heat by day.

import { now } from '../shared/clock.js';
import { byId, h, table } from '../shared/dom.js';
import { leftOutWords } from '../shared/fault-words.js';
import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';
import { conditionOf } from '../shared/conditions.js';
import { lightAdvice } from './light-words.js';
import { limits, measuredWords } from './limits-table.js';
import { pageZone } from '../shared/zone.js';
import { texts } from './texts.js';

/** Fewer rows on a phone, where each row takes six lines. */
const firstRows = () => (globalThis.matchMedia('(max-width: 640px)').matches ? 4 : 12);
const NUMBER = 'number';
const shownAll = new Set();

export function showTables(container, { light, band, heat }, setup) {
  fill('limits-part', limits(container, band));
  fill('light-part', lightEvents(light));
  fill('excursions-part', excursions(band));
  fill('heat-part', heatByDay(heat, setup.timeZone));
}

function fill(id, content) {
  byId(id).lastElementChild.replaceChildren(...content);
}
const LIGHT_KINDS = { opening: texts.opening, daylight: texts.daylight, lamp: texts.lamp, other: texts.otherLight };

function lightEvents(light) {
  if (!light) return [];
  const events = [...light.events].reverse();
  if (events.length === 0 && light.coveredHours === 0) return [nothing(measuredWords(light))];
  if (events.length === 0)
    return [nothing(texts.noLightAboveWasSeen(f.lux(light.limit), missing(light), leftOut(light)))];
  const columns = [
    { title: texts.what, cell: (event) => LIGHT_KINDS[event.kind] ?? event.kind },
    { title: texts.start, cell: (event) => t.stamp(event.start, now()) },
    { title: texts.end, cell: (event) => endWords(event) },
    { title: texts.length, class: NUMBER, cell: (event) => lengthWords(event) },
    { title: texts.brightest, class: NUMBER, cell: (event) => f.lux(event.peakLux) },
    { title: texts.lightDose, class: NUMBER, cell: (event) => f.luxHours(event.doseLuxHours) },
    { title: texts.temperature3, class: NUMBER, cell: (event) => f.temperatureChange(event.temperatureChange) },
    { title: texts.humidity3, class: NUMBER, cell: (event) => f.humidityChange(event.humidityChange) },
    { title: texts.whatToDo, cell: (event) => lightAdvice(event) },
  ];
  const leaks = events.filter((event) => event.kind !== 'opening').length;
  const caption = texts.inAll(
    f.count(leaks, texts.lightLeakCount),
    f.count(events.length - leaks, texts.openingCount),
    f.luxHours(light.doseLuxHours),
    missing(light),
    leftOut(light),
    zoneWords(),
  );
  return long('light', caption, columns, events, () => lightEvents(light));
}

function excursions(band) {
  if (!band) return [];
  const rows = band.excursions.filter((one) => one.kind !== 'light').reverse();
  if (rows.length === 0)
    return [nothing(band.coveredHours > 0 ? texts.temperatureAndHumidityStayed(missing(band)) : measuredWords(band))];
  const columns = [
    {
      title: texts.what,
      cell: (one) => `${conditionOf(one.kind).title}${one.duringOpening ? texts.duringAnOpening : ''}`,
    },
    { title: texts.start, cell: (one) => t.stamp(one.start, now()) },
    { title: texts.end, cell: (one) => endWords(one) },
    { title: texts.length, class: NUMBER, cell: (one) => t.hours(one.hours) },
    { title: texts.worst, class: NUMBER, cell: (one) => conditionOf(one.kind).unitOf(one.worst) },
    { title: texts.worstAt, cell: (one) => t.stamp(one.worstAt, now()) },
    { title: texts.degreeHoursLost, class: NUMBER, cell: (one) => f.degreeHours(one.degreeHoursLost) },
  ];
  const counted = rows.filter((one) => !one.duringOpening).length;
  return long(
    'excursions',
    `${f.count(counted, texts.excursionCount)}${missing(band)}. ${zoneWords()}`,
    columns,
    rows,
    () => excursions(band),
  );
}

function heatByDay(heat, zone) {
  const rows = [...(heat?.byDay ?? [])].reverse();
  if (rows.length === 0) return [nothing(texts.noReadingsToAddUp2)];
  const columns = [
    { title: texts.day, cell: (one) => t.day(one.day) },
    {
      title: texts.degreeHours,
      class: NUMBER,
      cell: (one) => (one.coveredHours > 0 ? f.degreeHours(one.degreeHours) : f.UNKNOWN),
    },
    { title: texts.heard2, class: NUMBER, cell: (one) => t.hours(one.coveredHours) },
    { title: texts.missing, class: NUMBER, cell: (one) => (one.gapHours > 0.01 ? t.hours(one.gapHours) : texts.none) },
    {
      title: texts.trueValueBetween,
      class: NUMBER,
      cell: (one) =>
        one.gapHours > 0.05
          ? texts.and(f.degreeHoursNumber(one.lower), f.degreeHours(one.upper))
          : texts.nothingMissing,
    },
  ];
  const above = texts.above(
    f.temperature(heat.base),
    heat.ceiling === null || heat.ceiling === undefined ? '' : texts.noMoreThanAt(f.temperature(heat.ceiling)),
  );
  return long('heat', texts.wholeTimeOfThisContainer(above, zone, leftOut(heat)), columns, rows, () =>
    heatByDay(heat, zone),
  );
}

const nothing = (words) => h('p', { class: 'quiet' }, words);
const missing = (part) => (part.gapHours > 0.05 ? texts.withMissing(t.hours(part.gapHours)) : '');
const leftOut = (part) => (part.leftOut?.length > 0 ? ` ${leftOutWords(part.leftOut)}` : '');
const zoneWords = () => texts.timesAsIn(pageZone);
const endWords = (one) => (one.end ? t.stamp(one.end, now()) : texts.notSeen);
const lengthWords = (event) => (event.end ? t.duration(Date.parse(event.end) - Date.parse(event.start)) : f.UNKNOWN);

/** Newest rows first, the rest on request. An unfolded table stays unfolded through live updates. */
function long(name, caption, columns, rows, again) {
  const all = shownAll.has(name) || rows.length <= firstRows();
  const content = [
    h('div', { class: 'table-place' }, table(caption, columns, all ? rows : rows.slice(0, firstRows()))),
  ];
  if (!all) {
    content.push(
      h(
        'button',
        {
          type: 'button',
          class: 'plain',
          on: {
            click: (event) => {
              shownAll.add(name);
              event.currentTarget.parentElement.replaceChildren(...again());
            },
          },
        },
        texts.showAll(f.number(rows.length)),
      ),
    );
  }
  return content;
}
