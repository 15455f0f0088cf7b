// Draws the picture of a lesson. Its words stand beside it, so a screen reader gets the list of figures.

import { intervalBar, lengthBar, placesOf } from '../shared/bars.js';
import { h } from '../shared/dom.js';
import { pictureOf } from './pictures.js';

/** The element; null where there is nothing to draw. */
export function lessonPicture(lesson, report) {
  const picture = pictureOf(lesson, report);
  if (picture === null) return null;
  const { caption, bars, zero = false, interval = zero } = picture;
  const { places, at } = placesOf(bars, zero ? [0] : []);
  const most = Math.max(...bars.map((one) => one.value)) || 1;
  return h(
    'figure',
    { class: 'lesson-picture' },
    h('figcaption', { class: 'quiet' }, caption),
    h(
      'ul',
      { class: 'bars' },
      bars.map((one, i) =>
        h(
          'li',
          {},
          h('span', { class: 'bar-name' }, one.name),
          interval ? intervalBar({ ...places[i], zero: zero ? at(0) : null }) : lengthBar(one.value / most),
          h('span', { class: 'bar-figure' }, one.text),
        ),
      ),
    ),
  );
}
