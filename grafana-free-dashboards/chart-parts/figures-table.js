// The figures of a chart as a table: of one container mean, lowest and highest, of several the mean of each.

import { now } from '../shared/clock.js';
import { table } from '../shared/dom.js';
import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';
import { rowsOf } from './figures.js';
import { texts } from './texts.js';

export function figuresTable({ sets, range }, spec) {
  const rows = rowsOf(sets, range);
  const time = { title: texts.from, cell: (row) => t.stamp(row.from, now()) };
  const column = (title, valueOf) => ({ title, class: 'number', cell: (row) => shown(valueOf(row), spec) });
  const each = sets.map((set, i) => column(set.name, (row) => (spec.sum ? row.values[i]?.last : row.values[i]?.mean)));
  const one = [
    column(texts.mean, (row) => row.values[0].mean),
    column(texts.lowest, (row) => row.values[0].min),
    column(texts.highest, (row) => row.values[0].max),
  ];
  const sum = [
    column(texts.sumByItsEnd, (row) => row.values[0].last),
    column(texts.atMostTitle, (row) => row.values[0].max),
  ];
  const columns = sets.length > 1 ? each : spec.sum ? sum : one;
  return table(spec.title(), [time, ...columns], rows);
}

const shown = (value, spec) => (f.known(value) ? f.number(value, spec.digits) : f.UNKNOWN);
