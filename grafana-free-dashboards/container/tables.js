// Tables for the stretch shown: limits, openings and leaks, excursions, heat by day.

import { now } from '../shared/clock.js';
import { byId, h, table } from '../shared/dom.js';
import { leftOutWords } from '../shared/fault-words.js';
import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';
import { conditionOf } from '../shared/conditions.js';
import { limits } from './limits-table.js';

/** Fewer rows on a phone, where each row takes six lines. */
const firstRows = () => (globalThis.matchMedia('(max-width: 640px)').matches ? 4 : 12);
export const NUMBER = 'number';
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
const LIGHT_KINDS = { opening: 'Opening', daylight: 'Daylight', lamp: 'Lamp', other: 'Other light' };

function lightEvents(light) {
  if (!light) return [];
  const events = [...light.events].reverse();
  if (events.length === 0)
    return [nothing(`No light above ${f.lux(light.limit)} was seen${missing(light)}.${leftOut(light)}`)];
  const columns = [
    { title: 'What', cell: (event) => LIGHT_KINDS[event.kind] ?? event.kind },
    { title: 'Start', cell: (event) => t.stamp(event.start, now()) },
    { title: 'End', cell: (event) => endWords(event) },
    { title: 'Length', class: NUMBER, cell: (event) => lengthWords(event) },
    { title: 'Brightest', class: NUMBER, cell: (event) => f.lux(event.peakLux) },
    { title: 'Light dose', class: NUMBER, cell: (event) => f.luxHours(event.doseLuxHours) },
    { title: 'Temperature', class: NUMBER, cell: (event) => f.temperatureChange(event.temperatureChange) },
    { title: 'Humidity', class: NUMBER, cell: (event) => f.humidityChange(event.humidityChange) },
    { title: 'What to do', cell: (event) => event.advice },
  ];
  const leaks = events.filter((event) => event.kind !== 'opening').length;
  const caption = `${f.count(leaks, 'light leak')}, ${f.count(events.length - leaks, 'opening')}; ${f.luxHours(light.doseLuxHours)} in all${missing(light)}.${leftOut(light)} ${zoneWords()}`;
  return long('light', caption, columns, events, () => lightEvents(light));
}

function excursions(band) {
  if (!band) return [];
  const rows = band.excursions.filter((one) => one.kind !== 'light').reverse();
  if (rows.length === 0)
    return [nothing(`Temperature and humidity stayed inside their limits while heard${missing(band)}.`)];
  const columns = [
    { title: 'What', cell: (one) => `${conditionOf(one.kind).title}${one.duringOpening ? ', during an opening' : ''}` },
    { title: 'Start', cell: (one) => t.stamp(one.start, now()) },
    { title: 'End', cell: (one) => endWords(one) },
    { title: 'Length', class: NUMBER, cell: (one) => t.hours(one.hours) },
    { title: 'Worst', class: NUMBER, cell: (one) => conditionOf(one.kind).unitOf(one.worst) },
    { title: 'Worst at', cell: (one) => t.stamp(one.worstAt, now()) },
    { title: 'Degree-hours lost', class: NUMBER, cell: (one) => f.degreeHours(one.degreeHoursLost) },
  ];
  const counted = rows.filter((one) => !one.duringOpening).length;
  return long('excursions', `${f.count(counted, 'excursion')}${missing(band)}. ${zoneWords()}`, columns, rows, () =>
    excursions(band),
  );
}

function heatByDay(heat, zone) {
  const rows = [...(heat?.byDay ?? [])].reverse();
  if (rows.length === 0) return [nothing('No readings to add up yet.')];
  const columns = [
    { title: 'Day', cell: (one) => t.day(one.day) },
    {
      title: 'Degree-hours',
      class: NUMBER,
      cell: (one) => (one.coveredHours > 0 ? f.degreeHours(one.degreeHours) : f.UNKNOWN),
    },
    { title: 'Heard', class: NUMBER, cell: (one) => t.hours(one.coveredHours) },
    { title: 'Missing', class: NUMBER, cell: (one) => (one.gapHours > 0.01 ? t.hours(one.gapHours) : 'none') },
    {
      title: 'True value between',
      class: NUMBER,
      cell: (one) =>
        one.gapHours > 0.05 ? `${f.degreeHoursNumber(one.lower)} and ${f.degreeHours(one.upper)}` : 'nothing missing',
    },
  ];
  const above = `Above ${f.temperature(heat.base)}${heat.ceiling === null || heat.ceiling === undefined ? '' : `, no more than at ${f.temperature(heat.ceiling)}`}`;
  return long(
    'heat',
    `${above}. Whole time of this container; days as in ${zone}.${leftOut(heat)}`,
    columns,
    rows,
    () => heatByDay(heat, zone),
  );
}

const nothing = (words) => h('p', { class: 'quiet' }, words);
const missing = (part) => (part.gapHours > 0.05 ? `, with ${t.hours(part.gapHours)} missing` : '');
const leftOut = (part) => (part.leftOut?.length > 0 ? ` ${leftOutWords(part.leftOut)}` : '');
const zoneWords = () => `Times as in ${t.browserZone()}.`;
const endWords = (one) => (one.end ? t.stamp(one.end, now()) : 'not seen');
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
        `Show all ${f.number(rows.length)}`,
      ),
    );
  }
  return content;
}
