// Days without sensors: their lowest and highest temperature entered by hand, and the heat estimated from them.

import { api } from '../shared/api.js';
import { byId, h, problemBox, table, whileBusy } from '../shared/dom.js';
import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';
import { extremesSummary, readExtremes } from './extremes-words.js';

const NUMBER = 'number';

/** @param id of the container */
export function makeExtremes(id) {
  const place = byId('extremes-part').lastElementChild;
  const told = h('div', { 'aria-live': 'polite' });
  const formPlace = h('div');
  let answer = null;
  place.append(
    told,
    h(
      'details',
      { id: 'enter-extremes' },
      h('summary', {}, 'Enter days from a weather station or a min/max thermometer'),
      formPlace,
    ),
  );

  function form() {
    const output = h('div', { class: 'output' });
    const button = h('button', { type: 'submit', class: 'main' }, 'Keep this day');
    const own = h(
      'form',
      {
        id: 'extremes-form',
        class: 'form',
        novalidate: true,
        on: {
          submit: async (event) => {
            event.preventDefault();
            const { day, body, problems } = readExtremes(Object.fromEntries(new FormData(own)));
            if (problems.length > 0) {
              output.replaceChildren(problemBox({ message: 'Please look at this again:', problems }));
              return;
            }
            await whileBusy(button, output, async () => {
              show(await api.putDayExtremes(id, day, body));
              output.replaceChildren(h('p', { class: 'done', role: 'status' }, `Kept: ${t.day(day)}.`));
              own.reset();
              own.elements.day.value = t.nextDay(day);
              own.elements.min.focus();
            });
          },
        },
      },
      h(
        'div',
        { class: 'fields' },
        field('day', 'Day', h('input', { type: 'date', required: true })),
        field('min', `Lowest (${f.unitName()})`, h('input', { inputmode: 'text', autocomplete: 'off' })),
        field('max', `Highest (${f.unitName()})`, h('input', { inputmode: 'text', autocomplete: 'off' })),
      ),
      h(
        'p',
        { class: 'help' },
        'Enter a day again to correct it. Use the temperature inside the container, or near it.',
      ),
      output,
      h('div', { class: 'actions' }, button),
    );
    return own;
  }

  function show(next) {
    answer = next;
    draw();
  }

  function draw() {
    told.replaceChildren(
      h('p', {}, extremesSummary(answer), ' ', h('a', { href: '/figures.html#container' }, 'How is this worked out?')),
      rows() ?? '',
    );
  }

  function rows() {
    if (answer.days.length === 0) return null;
    const columns = [
      { title: 'Day', cell: (one) => t.day(one.day) },
      { title: 'Lowest', class: NUMBER, cell: (one) => f.temperature(one.min) },
      { title: 'Highest', class: NUMBER, cell: (one) => f.temperature(one.max) },
      { title: 'Estimate', class: NUMBER, cell: (one) => `≈ ${f.degreeHours(one.estimate)}` },
      { title: 'Measured', class: NUMBER, cell: (one) => f.degreeHours(one.measured) },
      { title: 'Estimate less measured', class: NUMBER, cell: (one) => f.degreeHours(one.difference) },
      { title: '', cell: (one) => remove(one) },
    ];
    return h(
      'div',
      { class: 'table-place' },
      table(
        `Estimated with the single-sine method; days as in ${answer.timeZone}.`,
        columns,
        [...answer.days].reverse(),
      ),
    );
  }

  function remove(one) {
    const output = h('span');
    const button = h(
      'button',
      {
        type: 'button',
        class: 'plain',
        'aria-label': `Remove ${t.day(one.day)}`,
        on: {
          click: () =>
            whileBusy(button, output, async () => {
              await api.removeDayExtremes(id, one.day);
              await load();
            }),
        },
      },
      'Remove',
    );
    return h('span', {}, button, output);
  }

  async function load() {
    show(await api.dayExtremes(id));
  }

  formPlace.replaceChildren(form());
  return {
    load,
    /** The unit has changed: fields and figures must say the same temperatures anew. */
    redraw: () => {
      formPlace.replaceChildren(form());
      if (answer) draw();
    },
  };
}

function field(name, title, input) {
  const id = `extremes-${name}`;
  input.id = id;
  input.name = name;
  return h('div', { class: 'field' }, h('label', { for: id }, title), input);
}
