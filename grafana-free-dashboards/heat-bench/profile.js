// The mean temperature of each compared place by hour of the day, as a chart and a table.

import { createChart } from '../chart-parts/chart.js';
import { lineStyle } from '../chart-parts/colours.js';
import { swatch } from '../chart-parts/key.js';
import { byId, h, setText, table } from '../shared/dom.js';
import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';
import { profileColumns } from './words.js';
import { texts } from './texts.js';

const DAY_MS = 86_400_000;
/** Start of an arbitrary day, since only its hours are shown. */
const START_MS = t.startOfDay('2001-01-01');

let chart = null;

export function drawProfile(answer) {
  const place = byId('profile');
  chart?.destroy();
  chart = createChart(place, {
    series: answer.compared.map((one, i) => ({ ...lineStyle(i), width: 2 })),
    range: (min, max) => (min === null || min === undefined ? [0, 1] : [min - 0.5, max + 0.5]),
    formatTick: (value) => f.number(value, Number.isInteger(value) ? 0 : 1),
    formatTime: (at) => t.clockTime(at),
    onCursor: () => {},
    onZoom: () => {},
    onReset: () => {},
    sync: 'profile',
  });
  const columns = profileColumns(answer, START_MS);
  chart.update({ columns, from: START_MS, to: START_MS + DAY_MS, marks: [] });
  setText(byId('profile-title'), texts.throughTheDay(f.unitName()));
  place.setAttribute('aria-label', texts.meanTemperatureByHourOf(answer.compared.map((one) => one.name).join(', ')));
  byId('profile-key').replaceChildren(
    ...answer.compared.map((one, i) => h('span', { class: 'key-entry' }, swatch(lineStyle(i)), one.name)),
    texts.localHoursOf(answer.timeZone),
  );
  const rows = columns[0].map((at, hour) => ({
    hour: `${String(hour).padStart(2, '0')}:00`,
    values: columns.slice(1).map((column) => f.number(column[hour], 1)),
  }));
  byId('profile-table').replaceChildren(
    table(
      texts.meanTemperatureInEachHour,
      [
        { title: texts.hour, cell: (row) => row.hour },
        ...answer.compared.map((one, i) => ({ title: one.name, class: 'number', cell: (row) => row.values[i] })),
      ],
      rows,
    ),
  );
}
