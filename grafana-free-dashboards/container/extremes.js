// Days without sensors: their lowest and highest temperature entered by hand, and the heat estimated from them.

import { api } from '../shared/api.js';
import { actionButton, byId, h, table } from '../shared/dom.js';
import { field, form, Problems, typedIn } from '../shared/form.js';
import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';
import { serviceZone } from '../shared/zone.js';
import { extremesSummary, readExtremes } from './extremes-words.js';
import { texts } from './texts.js';

const NUMBER = 'number';

/** @param id of the container */
export function makeExtremes(id) {
  const place = byId('extremes-part').lastElementChild;
  const figures = h('div', { 'aria-live': 'polite' });
  const formPlace = h('div');
  let answer = null;
  place.append(
    figures,
    h('details', { id: 'enter-extremes' }, h('summary', {}, texts.enterDaysFromAWeather), formPlace),
  );

  function dayForm() {
    return form({
      id: 'extremes-form',
      content: [
        h(
          'div',
          { class: 'fields' },
          named('day', texts.day, h('input', { type: 'date', required: true })),
          named('min', texts.lowest2(f.unitName()), h('input', { inputmode: 'text', autocomplete: 'off' })),
          named('max', texts.highest2(f.unitName()), h('input', { inputmode: 'text', autocomplete: 'off' })),
        ),
        h('p', { class: 'help' }, texts.enterADayAgainTo),
      ],
      submit: texts.keepThisDay,
      save: async (element, output) => {
        const { day, body, problems } = readExtremes(typedIn(element));
        if (problems.length > 0) throw new Problems(problems);
        show(await api.putDayExtremes(id, day, body));
        output.replaceChildren(h('p', { class: 'done', role: 'status' }, texts.kept2(t.day(day))));
        element.reset();
        element.elements.day.value = t.nextDay(day);
        element.elements.min.focus();
      },
    });
  }

  function show(next) {
    answer = next;
    draw();
  }

  function draw() {
    figures.replaceChildren(
      h('p', {}, extremesSummary(answer), ' ', h('a', { href: '/figures.html#container' }, texts.howIsThisWorkedOut)),
      rows() ?? '',
    );
  }

  function rows() {
    if (answer.days.length === 0) return null;
    const columns = [
      { title: texts.day, cell: (one) => t.day(one.day) },
      { title: texts.lowest, class: NUMBER, cell: (one) => f.temperature(one.min) },
      { title: texts.highest, class: NUMBER, cell: (one) => f.temperature(one.max) },
      { title: texts.estimate, class: NUMBER, cell: (one) => `≈ ${f.degreeHours(one.estimate)}` },
      { title: texts.measured, class: NUMBER, cell: (one) => f.degreeHours(one.measured) },
      { title: texts.estimateLessMeasured, class: NUMBER, cell: (one) => f.degreeHours(one.difference) },
      { title: '', cell: (one) => remove(one) },
    ];
    return h(
      'div',
      { class: 'table-place' },
      table(texts.estimatedWithTheSingleSine(answer.timeZone), columns, [...answer.days].reverse()),
    );
  }

  function remove(one) {
    const output = h('span');
    const props = { class: 'plain', 'aria-label': texts.remove(t.day(one.day)) };
    const button = actionButton(props, texts.remove2, output, async () => {
      await api.removeDayExtremes(id, one.day);
      await load();
    });
    return h('span', {}, button, output);
  }

  async function load() {
    show(await api.dayExtremes(id));
  }

  formPlace.replaceChildren(dayForm());
  return {
    load,
    /** Draws fields and figures again after a change of the unit. */
    redraw: () => {
      formPlace.replaceChildren(dayForm());
      if (answer) draw();
    },
  };
}

/** A day here is one of the service's zone, as in the answer, whatever the zone of the page. */
function named(name, title, input) {
  Object.assign(input, { id: `extremes-${name}`, name });
  return field(title, input, '', serviceZone);
}
