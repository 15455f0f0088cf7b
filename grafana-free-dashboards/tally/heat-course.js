// The course of germination over degree-hours.

import { h, table } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { drawing } from './course-drawing.js';
import { unfolded } from './course-table.js';
import { heatEnd, heatWhiskers, watchedHeat } from './course.js';
import { aboveWords, fitWords, heatNumber, heatUnit, leftOutOfCourse } from './heat-words.js';
import { texts } from './texts.js';

const FATES = { germinated: texts.germinated, culled: texts.culled2, remaining: texts.stillSound };

/** The axis of degree-hours. */
export const heatAxis = (course) => ({
  end: heatEnd(course),
  xTitle: `${heatUnit()} ${aboveWords(course)}`,
  tickText: (shown) => f.number(shown),
  toShown: f.differenceToUnit,
});

export function overHeat({ course, trouble }, sowing) {
  if (trouble) return [h('p', { class: 'caution', role: 'status' }, trouble)];
  if (!course) return [h('p', { class: 'waiting' }, texts.addingUpTheHeat)];
  const watched = watchedHeat(course);
  const words = fitWords(course, watched);
  const sure = h('p', { class: 'headline' }, words.headline);
  const lines = [...words.lines, leftOutOfCourse(course)].filter(Boolean).map((line) => h('p', {}, line));
  if (course.curve.length === 0 || watched === 0) return [sure, ...lines];
  const whiskers = heatWhiskers(course);
  const keys = [
    texts.fullLineFoundGerminatedBy,
    whiskers.length > 0 && texts.barsWithEndsHowFar,
    course.fit.identified && texts.smoothLineTheFittedCurve,
    course.fit.identified && course.fit.medianHeat <= heatEnd(course) && texts.theHeavyBarOnIt,
  ];
  return [
    drawing({
      curve: course.curve,
      title: texts.germinatedByHeat(aboveWords(course)),
      description: texts.seedsWereSown(words.headline, sowing.sown),
      ...heatAxis(course),
      whiskers,
      fit: course.fit.identified ? course.fit : null,
    }),
    sure,
    ...lines,
    h('p', { class: 'quiet' }, keys.filter(Boolean).join(' ')),
    unfolded(
      table(
        texts.heatIn(heatUnit(), aboveWords(course)),
        [
          {
            title: texts.seeds,
            cell: (row) => texts.group3(f.number(row.count), FATES[row.fate] ?? row.fate, row.group),
          },
          {
            title: texts.notYetAt,
            class: 'number',
            cell: (row) => (row.measured === false ? texts.hardlyMeasured : boundsText(row.from)),
          },
          {
            title: texts.foundBy,
            class: 'number',
            cell: (row) =>
              !row.to ? texts.notSeen : row.measured === false ? texts.hardlyMeasured : boundsText(row.to),
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
    : texts.to3(heatNumber(likely), heatNumber(least), heatNumber(most));
