// Tables whose cells have an interval below the figure.

import { h, table } from '../shared/dom.js';

export function tablePlace(caption, titles, rows) {
  const columns = [
    { title: '', cell: (row) => row.name },
    ...titles.map((title, i) => ({ title, class: 'number', cell: (row) => lines(row.cells[i]) })),
  ];
  return h('div', { class: 'table-place bench' }, table(caption, columns, rows));
}

const lines = ({ main, interval }) => [
  h('span', { class: 'figure-line' }, main),
  interval ? h('span', { class: 'interval' }, interval) : null,
];
