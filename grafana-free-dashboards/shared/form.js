// Forms: labelled fields and a button that sends them.

import { h, whileBusy } from './dom.js';
import { texts } from './texts.js';
import { zoneHelp } from './zone.js';

/** Several problems with what was typed, one text each. */
export class Problems extends Error {
  constructor(problems) {
    super(texts.pleaseLookAtThisAgain);
    this.problems = problems;
  }
}

/**
 * Makes a form. While `save` runs, its button is disabled. An error that `save` throws is shown in `output`.
 * @param submit text of the button; @param plain whether the button is not the main one of the page
 * @param save gets the form and `output`; @param other buttons beside the button
 */
export function form({ id, content, submit, plain, save, output = h('div', { class: 'output' }), other }) {
  const button = h('button', { type: 'submit', class: plain ? null : 'main' }, submit);
  const element = h(
    'form',
    {
      id,
      class: 'form',
      novalidate: true,
      on: {
        submit: (event) => {
          event.preventDefault();
          whileBusy(button, output, async () => save(element, output));
        },
      },
    },
    content,
    output,
    h('div', { class: 'actions' }, other, button),
  );
  return element;
}

/** The names and values of a form's fields. */
export const typedIn = (element) => Object.fromEntries(new FormData(element));

let fieldCount = 0;

const TIMES = ['date', 'datetime-local'];

/**
 * A label, its input and a help text. An input without an id gets one; one for a date or time says its zone.
 * @param zone of a date or time; the page's if left out
 */
export function field(title, input, words = '', zone = undefined) {
  const help = TIMES.includes(input.type) ? [words, zoneHelp(zone)].filter(Boolean).join(' ') : words;
  if (!input.id) input.id = `field-${(fieldCount += 1)}`;
  if (help) input.setAttribute('aria-describedby', `${input.id}-help`);
  return h(
    'div',
    { class: 'field' },
    h('label', { for: input.id }, title),
    input,
    help && h('p', { class: 'help', id: `${input.id}-help` }, help),
  );
}

/** The value in force, unless somebody is typing another. */
export function fillUntouched(input, value) {
  const known = value === null || value === undefined ? '' : String(value);
  if (input.value !== input.defaultValue || input.defaultValue === known) return;
  input.defaultValue = known;
  input.value = known;
}
