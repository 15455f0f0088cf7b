// The limits of a container as a table: state now, and share of the time inside.

import { h, table } from '../shared/dom.js';
import { leftOutWords } from '../shared/fault-words.js';
import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';
import { conditionOf } from '../shared/conditions.js';
import { limitOf } from '../shared/limit-words.js';
import { texts } from './texts.js';

const STATES = {
  inside: texts.inside,
  outside: texts.outsideNotForLongYet,
  alert: texts.outsideAlert,
  unknown: texts.notKnown,
};
const SILENT_STATES = { ...STATES, inside: texts.heard, outside: texts.late, alert: texts.silentAlert };
const NAMES = {
  cold: texts.notColderThan,
  hot: texts.notHotterThan,
  dry: texts.notDrierThan,
  light: texts.notBrighterThan,
  silent: texts.heard2,
};

/** The share inside, and what the sensor's own error leaves open where that differs. */
export function insideWords({ fractionInside, sensorLower, sensorUpper }) {
  const share = f.share(fractionInside);
  if (!f.known(sensorLower)) return share;
  const [low, high] = [f.share(sensorLower), f.share(sensorUpper)];
  return low === share && high === share ? share : texts.sensorTo(share, low, high);
}

/** How much of the stretch was measured: time between two readings without a gap. */
export function measuredWords({ coveredHours, gapHours, leftOut }) {
  const without = leftOutWords(leftOut);
  return coveredHours > 0
    ? texts.inTheStretchShownHeard(t.hours(coveredHours), t.hours(gapHours), without)
    : texts.nothingMeasured(without);
}

export function limits(container, band) {
  const rows = Object.keys(NAMES).map((kind) => ({
    kind,
    state: container.limits?.[kind] ?? 'unknown',
    summary: band?.limits?.[kind],
  }));
  const columns = [
    {
      title: texts.limit,
      cell: (row) =>
        `${NAMES[row.kind]}${row.kind === 'silent' ? '' : ` ${conditionOf(row.kind).unitOf(limitOf(container, row.kind))}`}`,
    },
    {
      title: texts.now2,
      cell: (row) =>
        h('span', { class: `state is-${row.state}` }, (row.kind === 'silent' ? SILENT_STATES : STATES)[row.state]),
    },
    {
      title: texts.insideOfTheTimeHeard,
      class: 'number',
      cell: (row) => (row.summary ? insideWords(row.summary) : f.UNKNOWN),
    },
    {
      title: texts.outsideFor,
      class: 'number',
      cell: (row) => (row.summary ? t.hours(row.summary.hoursOutside) : f.UNKNOWN),
    },
  ];
  return [table(band ? measuredWords(band) : '', columns, rows)];
}
