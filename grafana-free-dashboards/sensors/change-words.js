// Words for a changed placement, with the figures of the containers before and after. Pure.

import * as f from '../shared/format.js';

/** The columns of the table that compares before and after. */
export const CHANGE_COLUMNS = [
  { title: 'Container', cell: (one) => one.name },
  { title: 'Degree-hours before', class: 'number', cell: ({ before }) => f.degreeHours(before?.degreeHours) },
  { title: 'Degree-hours after', class: 'number', cell: ({ after }) => f.degreeHours(after?.degreeHours) },
  { title: 'In band before', class: 'number', cell: ({ before }) => f.share(before?.shareInBand) },
  { title: 'In band after', class: 'number', cell: ({ after }) => f.share(after?.shareInBand) },
  { title: 'Gaps before', class: 'number', cell: ({ before }) => gap(before) },
  { title: 'Gaps after', class: 'number', cell: ({ after }) => gap(after) },
];

const gap = (figures) => (figures ? `${f.number(figures.gapHours, 1)} h` : f.UNKNOWN);

const same = (a, b) => (a === null || b === null ? a === b : Math.abs(a.degreeHours - b.degreeHours) < 0.05);

/** The verdict: what was done, and whose heat changed. */
export function changeVerdict(done, containers) {
  const changed = containers.filter(({ before, after }) => !same(before, after));
  if (changed.length === 0) return `${done} No figure changed.`;
  const heat = changed.map(({ name, before, after }) => `${name}: ${heatWords(before, after)}`);
  return `${done} ${heat.join('. ')}.`;
}

function heatWords(before, after) {
  if (before === null) return `now ${f.degreeHours(after.degreeHours)}`;
  if (after === null) return `no longer measured (was ${f.degreeHours(before.degreeHours)})`;
  return `${f.degreeHours(before.degreeHours)} became ${f.degreeHours(after.degreeHours)}`;
}

/** Why the days left of a battery are not known, and what to do. */
export function batteryReason(battery) {
  switch (battery?.reason) {
    case 'tooShort':
      return 'Days left: not known yet. Six days of voltages are needed since the cells were charged or changed.';
    case 'flat':
      return 'Days left: not known. The voltage does not clearly fall yet.';
    case 'rising':
      return 'Days left: not known. The voltage rises, as when cells are charged.';
    case 'unknownCells':
      return 'Days left: not known. Enter below at which voltage its cells are empty.';
    default:
      return '';
  }
}

/** The input of a date and time in the browser's zone, as `datetime-local` wants it. */
export function localInput(instant) {
  if (!instant) return '';
  const date = new Date(instant);
  const shifted = new Date(date.getTime() - date.getTimezoneOffset() * 60_000);
  return shifted.toISOString().slice(0, 16);
}

/**
 * The instant of a typed date and time. An untouched field keeps its exact instant, since the field has whole minutes.
 * @returns undefined for an empty field
 */
export function typedInstant(typed, untouched) {
  if (!typed) return undefined;
  if (untouched && typed === localInput(untouched)) return untouched;
  return new Date(typed).toISOString();
}
