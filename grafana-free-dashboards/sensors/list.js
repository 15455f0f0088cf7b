// The list of sensors with its search, choice and order.

import { setAge } from '../shared/ages.js';
import { now } from '../shared/clock.js';
import { byId, h, reconcile, setOptions, setText } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { showNext } from '../shared/next-step.js';
import { sheetOf } from '../shared/sensor-place.js';
import { SHOWN, SORTS, chosenRows, rowOf, verdictWords } from './list-words.js';
import { texts } from './texts.js';

/** Fills the form from the address; keeps the address in step, so that "back" shows the same list. */
export function makeChoice(redraw) {
  const asked = new URLSearchParams(location.search);
  const form = byId('choice');
  setOptions(
    byId('sort'),
    SORTS.map(({ key, title }) => ({ value: key, text: title })),
  );
  setOptions(
    byId('show'),
    SHOWN.map(({ key, title }) => ({ value: key, text: title })),
  );
  for (const name of ['q', 'show', 'sort']) if (asked.has(name)) form.elements[name].value = asked.get(name);
  if (!form.elements.show.value) form.elements.show.value = 'all';
  if (!form.elements.sort.value) form.elements.sort.value = 'name';
  form.addEventListener('submit', (event) => event.preventDefault());
  form.addEventListener('input', () => {
    const typed = new URLSearchParams(new FormData(form));
    for (const [name, usual] of [
      ['q', ''],
      ['show', 'all'],
      ['sort', 'name'],
    ])
      if (typed.get(name) === usual) typed.delete(name);
    history.replaceState(null, '', typed.size > 0 ? `?${typed}` : location.pathname);
    redraw();
  });
}

export function drawList(sensors, containers) {
  const at = now();
  const rows = [...sensors.values()].map((sensor) => rowOf(sensor, containers, at));
  const typed = Object.fromEntries(new FormData(byId('choice')));
  const chosen = chosenRows(rows, typed);
  const connect = { title: texts.connectASensor, href: '/' };
  showNext(byId('verdict'), verdictWords(rows), rows.length === 0 ? connect : null);
  setOptions(
    byId('show'),
    SHOWN.map(({ key, title, test }) => ({ value: key, text: `${title} (${f.number(rows.filter(test).length)})` })),
  );
  setText(
    byId('shown'),
    chosen.length === rows.length ? '' : texts.ofWord2(f.number(chosen.length), f.number(rows.length)),
  );
  reconcile(byId('sensors'), chosen, (row) => row.key, makeRow, updateRow);
}

function makeRow(row) {
  return h(
    'li',
    { data: { sensor: row.key } },
    h('p', { class: 'who' }, h('a', { href: sheetOf({ sensor: row.key }) }), ' ', h('span', { class: 'marks' })),
    h('p', { class: 'where' }),
    h('p', { class: 'last' }, h('time', { class: 'age' }), ' ', h('span')),
    h('p', { class: 'reporting' }),
    h('p', { class: 'battery' }),
    h('p', { class: 'device' }),
  );
}

const MARKS = [
  ['late', texts.late],
  ['low', texts.lowBattery],
  ['faulty', texts.faulty],
];

function updateRow(item, row) {
  setText(item.querySelector('a'), row.name);
  setText(item.querySelector('.where'), row.where);
  const time = item.querySelector('time');
  setAge(time, row.lastHeard);
  setText(time.nextElementSibling, row.lastHeard ? row.latest : texts.notHeardYet);
  for (const name of ['reporting', 'battery', 'device']) setText(item.querySelector(`.${name}`), row[name]);
  item.classList.toggle('is-retired', row.retired);
  const marks = MARKS.filter(([key]) => row[key]).map(([, words]) => words);
  const place = item.querySelector('.marks');
  if (place.textContent !== marks.join(''))
    place.replaceChildren(...marks.map((words) => h('span', { class: 'mark' }, words)));
}
