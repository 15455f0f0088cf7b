// Words for a changed placement, with the figures of the containers before and after. Pure.

import * as f from '../shared/format.js';
import { inputOf, typedTime } from '../shared/time-format.js';
import { texts } from './texts.js';

/** The columns of the table that compares before and after. */
export const CHANGE_COLUMNS = [
  { title: texts.container, cell: (one) => one.name },
  { title: texts.degreeHoursBefore, class: 'number', cell: ({ before }) => f.degreeHours(before?.degreeHours) },
  { title: texts.degreeHoursAfter, class: 'number', cell: ({ after }) => f.degreeHours(after?.degreeHours) },
  { title: texts.inBandBefore, class: 'number', cell: ({ before }) => f.share(before?.shareInBand) },
  { title: texts.inBandAfter, class: 'number', cell: ({ after }) => f.share(after?.shareInBand) },
  { title: texts.gapsBefore, class: 'number', cell: ({ before }) => gap(before) },
  { title: texts.gapsAfter, class: 'number', cell: ({ after }) => gap(after) },
];

const gap = (figures) => (figures ? `${f.number(figures.gapHours, 1)} h` : f.UNKNOWN);

/** The figures that the table shows, with the words before each in the verdict. */
const FIGURES = [
  { words: '', shown: (one) => f.degreeHours(one.degreeHours) },
  { words: texts.inBand, shown: (one) => f.share(one.shareInBand) },
  { words: texts.gaps, shown: gap },
];

/** The verdict: what was done, and which shown figures changed. */
export function changeVerdict(done, containers) {
  const changed = containers
    .map(({ name, before, after }) => ({ name, words: changeOf(before, after) }))
    .filter(({ words }) => words !== '');
  if (changed.length === 0) return texts.noFigureChanged(done);
  return `${done} ${changed.map(({ name, words }) => `${name}: ${words}`).join('. ')}.`;
}

function changeOf(before, after) {
  if (before === null && after === null) return '';
  if (before === null) return texts.now(f.degreeHours(after.degreeHours));
  if (after === null) return texts.noLongerMeasuredWas(f.degreeHours(before.degreeHours));
  return FIGURES.filter(({ shown }) => shown(before) !== shown(after))
    .map(({ words, shown }) => texts.became(words, shown(before), shown(after)))
    .join(', ');
}

/** Why the days left of a battery are not known, and what to do. */
export function batteryReason(battery) {
  switch (battery?.reason) {
    case 'tooShort':
      return texts.daysLeftNotKnownYet;
    case 'flat':
      return texts.daysLeftNotKnownThe;
    case 'rising':
      return texts.daysLeftNotKnownThe2;
    case 'unknownCells':
      return texts.daysLeftNotKnownEnter;
    default:
      return '';
  }
}

/**
 * The instant of a typed date and time. An untouched field keeps its exact instant, since the field has whole minutes.
 * @returns undefined for an empty field
 */
export function typedInstant(typed, untouched) {
  if (!typed) return undefined;
  if (untouched && typed === inputOf(untouched)) return untouched;
  return new Date(typedTime(typed)).toISOString();
}
