// The heat a day of each compared place, as a bar with its 95 % interval.

import { intervalBar, placesOf } from '../shared/bars.js';
import { h } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { figure, heat } from './words.js';
import { texts } from './texts.js';

export function drawHeatBars(answer) {
  const { places } = placesOf(answer.compared.map((one) => one.measures.degreeHoursPerDay));
  return h(
    'ul',
    { class: 'heat-bars bars', 'aria-label': texts.heatADayWithIts(f.unitName()) },
    answer.compared.map((one, i) => {
      const words = figure(one.measures.degreeHoursPerDay, heat);
      return h(
        'li',
        { data: { bar: one.key } },
        h('span', { class: 'bar-name' }, one.name),
        places[i] ? intervalBar(places[i]) : h('span', {}),
        h('span', { class: 'bar-figure' }, words.main),
      );
    }),
  );
}
