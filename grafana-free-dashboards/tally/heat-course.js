// The course of germination over degree-hours.

import { h, table } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { drawing } from './course-drawing.js';
import { BETWEEN, FATES, unfolded } from './course-view.js';
import { heatEnd, heatWhiskers, watchedHeat } from './course.js';
import { aboveWords, fitWords, heatNumber, heatUnit, leftOutOfCourse } from './heat-words.js';

export function overHeat({ course, trouble }, sowing) {
  if (trouble) return [h('p', { class: 'caution', role: 'status' }, trouble)];
  if (!course) return [h('p', { class: 'waiting' }, 'Adding up the heat …')];
  const watched = watchedHeat(course);
  const words = fitWords(course, watched);
  const sure = h('p', { class: 'headline' }, words.headline);
  const lines = [...words.lines, leftOutOfCourse(course)].filter(Boolean).map((line) => h('p', {}, line));
  if (course.curve.length === 0 || watched === 0) return [sure, ...lines];
  const whiskers = heatWhiskers(course);
  const keys = [
    BETWEEN,
    whiskers.length > 0 &&
      'Bars with ends: how far the heat at a check is uncertain, from gaps and from what the sensors may be off by.',
    course.fit.identified && 'Smooth line: the fitted curve.',
    course.fit.identified &&
      course.fit.medianHeat <= heatEnd(course) &&
      'The heavy bar on it is the heat of half of them, with its 95 % interval.',
  ];
  return [
    drawing({
      curve: course.curve,
      end: heatEnd(course),
      title: `Germinated, by heat ${aboveWords(course)}`,
      description: `${words.headline} ${sowing.sown} seeds were sown.`,
      xTitle: `${heatUnit()} ${aboveWords(course)}`,
      tickText: (shown) => f.number(shown),
      toShown: f.differenceToUnit,
      whiskers,
      fit: course.fit.identified ? course.fit : null,
    }),
    sure,
    ...lines,
    h('p', { class: 'quiet' }, keys.filter(Boolean).join(' ')),
    unfolded(
      table(
        `Heat in ${heatUnit()} ${aboveWords(course)}`,
        [
          {
            title: 'Seeds',
            cell: (row) => `${f.number(row.count)} ${FATES[row.fate] ?? row.fate}, group ${row.group}`,
          },
          {
            title: 'Not yet at',
            class: 'number',
            cell: (row) => (row.measured === false ? 'hardly measured' : boundsText(row.from)),
          },
          {
            title: 'Found by',
            class: 'number',
            cell: (row) => (!row.to ? 'not seen' : row.measured === false ? 'hardly measured' : boundsText(row.to)),
          },
        ],
        course.rows,
      ),
    ),
  ];
}

const boundsText = ({ likely, least, most }) =>
  heatNumber(least) === heatNumber(most)
    ? heatNumber(likely)
    : `${heatNumber(likely)} (${heatNumber(least)} to ${heatNumber(most)})`;
