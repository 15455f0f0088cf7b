// The limits of a container as a table: state now, and share of the time inside.

import { h, table } from '../shared/dom.js';
import { leftOutWords } from '../shared/fault-words.js';
import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';
import { conditionOf } from '../shared/conditions.js';
import { limitOf } from '../shared/limit-words.js';
import { NUMBER } from './tables.js';

const STATES = {
  inside: '✓ inside',
  outside: '~ outside, not for long yet',
  alert: '! outside, alert',
  unknown: '? not known',
};
const SILENT_STATES = { ...STATES, inside: '✓ heard', outside: '~ late', alert: '! silent, alert' };
const NAMES = {
  cold: 'Not colder than',
  hot: 'Not hotter than',
  dry: 'Not drier than',
  light: 'Not brighter than',
  silent: 'Heard',
};

/** The share inside, and what the sensor's own error leaves open where that differs. */
export function insideWords({ fractionInside, sensorLower, sensorUpper }) {
  const share = f.share(fractionInside);
  if (!f.known(sensorLower)) return share;
  const [low, high] = [f.share(sensorLower), f.share(sensorUpper)];
  return low === share && high === share ? share : `${share} (sensor: ${low} to ${high})`;
}

export function limits(container, band) {
  const rows = Object.keys(NAMES).map((kind) => ({
    kind,
    state: container.limits?.[kind] ?? 'unknown',
    summary: band?.limits?.[kind],
  }));
  const columns = [
    {
      title: 'Limit',
      cell: (row) =>
        `${NAMES[row.kind]}${row.kind === 'silent' ? '' : ` ${conditionOf(row.kind).unitOf(limitOf(container, row.kind))}`}`,
    },
    {
      title: 'Now',
      cell: (row) =>
        h('span', { class: `state is-${row.state}` }, (row.kind === 'silent' ? SILENT_STATES : STATES)[row.state]),
    },
    {
      title: 'Inside, of the time heard',
      class: NUMBER,
      cell: (row) => (row.summary ? insideWords(row.summary) : f.UNKNOWN),
    },
    {
      title: 'Outside for',
      class: NUMBER,
      cell: (row) => (row.summary ? t.hours(row.summary.hoursOutside) : f.UNKNOWN),
    },
  ];
  const heard = band
    ? `In the stretch shown, ${t.hours(band.coveredHours)} heard and ${t.hours(band.gapHours)} missing. ${leftOutWords(band.leftOut)}`
    : '';
  return [table(heard, columns, rows)];
}
