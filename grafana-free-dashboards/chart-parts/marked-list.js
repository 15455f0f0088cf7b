// Lists what the charts mark, newest first. A press on an entry leads to its moment in the charts.

import { h } from '../shared/dom.js';
import { MARKS } from './marks.js';
import { aroundMark, markTime } from './marked.js';
import { texts } from './texts.js';

const FIRST = 8;

/**
 * @param place the element to fill
 * @param lead called with the moment and the stretch around it
 */
export function makeMarkedList(place, lead) {
  let all = false;
  let marks = [];

  function draw() {
    const shown = all ? marks : marks.slice(0, FIRST);
    const rows = shown.map((mark) =>
      h(
        'li',
        { data: { mark: mark.kind } },
        h('span', { class: 'mark-sign', 'aria-hidden': 'true' }, MARKS[mark.kind].letter),
        h('button', { type: 'button', class: 'plain mark-time', on: { click: () => go(mark) } }, markTime(mark)),
        h('span', {}, mark.name ? `${mark.name}: ${mark.text}` : mark.text),
      ),
    );
    const more = h('button', { type: 'button', class: 'plain', on: { click: showAll } }, texts.showAll(marks.length));
    place.replaceChildren(
      marks.length === 0 ? h('p', { class: 'quiet' }, texts.nothingMarked) : h('ul', { class: 'marked' }, rows),
      ...(shown.length < marks.length ? [more] : []),
    );
  }

  const go = (mark) => lead((mark.from + mark.to) / 2, aroundMark(mark));

  function showAll() {
    all = true;
    draw();
    place.querySelectorAll('.mark-time')[FIRST]?.focus();
  }

  return {
    /** @param next marks in order of time */
    show(next) {
      const same = JSON.stringify(next) === JSON.stringify([...marks].reverse());
      marks = [...next].reverse();
      if (!same || !place.firstChild) draw();
    },
  };
}
