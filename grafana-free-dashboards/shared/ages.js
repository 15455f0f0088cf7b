// Ages of moments ("3 min ago"), kept up to date.

import { now } from './clock.js';
import { dateForm } from './date-form.js';
import { h, setText } from './dom.js';
import { locale } from './language.js';
import { age } from './time-format.js';
import { pageZone } from './zone.js';

const NUMBER = 'numeric';
const MOMENT = {
  year: NUMBER,
  month: NUMBER,
  day: NUMBER,
  hour: NUMBER,
  minute: NUMBER,
  second: NUMBER,
  timeZone: pageZone,
};

/** An element that shows the age of a moment; `keepAges` updates it. */
export function ageOf(at, before = '', after = '') {
  const element = h('time', { class: 'age', data: { before, after } });
  setAge(element, at, before, after);
  return element;
}

export function setAge(element, at, before = '', after = '') {
  if (!at) {
    element.removeAttribute('datetime');
    setText(element, '');
    return;
  }
  element.setAttribute('datetime', at);
  element.title = dateForm(locale, MOMENT).format(new Date(at));
  Object.assign(element.dataset, { before, after });
  setText(element, before + age(at, now()) + after);
}

/** Updates all ages every 5 s. */
export function keepAges() {
  setInterval(() => {
    for (const element of document.querySelectorAll('time.age[datetime]')) {
      setText(
        element,
        (element.dataset.before ?? '') + age(element.getAttribute('datetime'), now()) + (element.dataset.after ?? ''),
      );
    }
  }, 5000);
}
