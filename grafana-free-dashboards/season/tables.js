// Parts of the report: sections, and tables whose cells have a second line.

import { h, table } from '../shared/dom.js';

export const part = (title, ...children) => h('section', {}, h('h3', {}, title), children);

export function rowsTable(caption, first, titles, rows) {
  const columns = [
    { title: first, class: 'name', cell: (row) => lines(row.name) },
    ...titles.map((title, i) => ({ title, cell: (row) => lines(row.cells[i]) })),
  ];
  return h('div', { class: 'table-place' }, table(caption, columns, rows));
}

const lines = ({ main, below }) => [
  h('span', { class: 'main-line' }, main),
  below ? h('span', { class: 'below' }, below) : null,
];
