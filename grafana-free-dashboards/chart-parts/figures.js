// The figures of a chart: as a table of at most 48 rows, and as CSV with each sample. Pure.

import * as f from '../shared/format.js';
import { isKnown } from '../shared/series.js';

const MOST_ROWS = 48;

/** @return [{from, values: [{mean, min, max} or null, one for each set]}], equal parts of the range */
export function rowsOf(sets, { from, to }) {
  const step = (to - from) / MOST_ROWS;
  const rows = [];
  const next = sets.map(() => 0);
  for (let i = 0; i < MOST_ROWS; i++) {
    const end = i === MOST_ROWS - 1 ? Infinity : from + (i + 1) * step;
    const values = sets.map(({ columns }, k) => {
      const start = next[k];
      while (next[k] < columns[0].length && columns[0][next[k]] < end) next[k]++;
      return summed(columns, start, next[k]);
    });
    if (values.some(Boolean)) rows.push({ from: from + i * step, values });
  }
  return rows;
}

function summed([, means, mins, maxs], start, end) {
  const known = [];
  for (let i = start; i < end; i++) if (isKnown(means[i])) known.push(i);
  if (known.length === 0) return null;
  return {
    mean: known.reduce((sum, i) => sum + means[i], 0) / known.length,
    last: means[known.at(-1)],
    min: Math.min(...known.map((i) => mins[i])),
    max: Math.max(...known.map((i) => maxs[i])),
  };
}

/** A cell of CSV (RFC 4180). One that a spreadsheet would take for a formula gets an apostrophe. */
export function cell(value) {
  const text = /^[=+\-@\t\r]/.test(value) && !isKnown(Number(value)) ? `'${value}` : String(value);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** One row for each sample; times in UTC, a decimal point. A gap is a row without values. */
export function csvOf(sets, { quantity, unit }) {
  const digits = (value) => (isKnown(value) ? String(f.round(value, 4)) : '');
  const lines = [['time', 'container', 'quantity', 'unit', 'mean', 'lowest', 'highest']];
  for (const { name, columns } of sets) {
    columns[0].forEach((at, i) => {
      const values = columns.slice(1, 4).map((column) => digits(column[i]));
      lines.push([new Date(Math.round(at)).toISOString(), name, quantity, unit, ...values]);
    });
  }
  return lines.map((line) => `${line.map(cell).join(',')}\r\n`).join('');
}
