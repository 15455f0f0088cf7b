// The germination curve of one sowing over days or degree-hours, in words and as a table.

import { h, table } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { drawing, xAxis } from './course-drawing.js';
import { unfolded } from './course-table.js';
import { watchedHeat } from './course.js';
import { heatAxis, overHeat } from './heat-course.js';
import { noHeatWords } from './heat-words.js';
import { loadWarmth } from './warmth-load.js';
import { warmthFigure } from './warmth-view.js';
import { texts } from './texts.js';

const AXES = { days: texts.overDays, heat: texts.overHeat };

/** The axis chosen last, for all sowings of this page. */
let chosen = 'days';

/**
 * @param germination the answer about the germination of a sowing; @param asked a promise of its course over heat
 * @param names gives the name of a container by its id
 * @return an element that fills itself when the answer is there
 */
export function makeCourse(germination, sowing, asked, names) {
  if (germination.measures.curve.length === 0) return h('p', { class: 'waiting' }, texts.theCurveBeginsWithThe);
  const drawn = h('div');
  const warmth = h('div');
  const state = { course: null, trouble: null, lines: [], leftOut: '' };
  const buttons = Object.entries(AXES).map(([axis, title]) =>
    h(
      'button',
      {
        type: 'button',
        data: { axis },
        on: {
          click: () => {
            chosen = axis;
            draw();
          },
        },
      },
      title,
    ),
  );
  const draw = () => {
    for (const button of buttons) button.setAttribute('aria-pressed', String(button.dataset.axis === chosen));
    drawn.replaceChildren(...(chosen === 'days' ? overDays(germination, sowing) : overHeat(state, sowing)));
    warmth.replaceChildren(...warmthBelow(state, germination));
  };
  asked
    .then(
      (course) => Object.assign(state, { course }),
      (problem) => Object.assign(state, { trouble: noHeatWords(problem) }),
    )
    .then(draw);
  loadWarmth(sowing, germination, names).then(
    (loaded) => {
      Object.assign(state, loaded);
      draw();
    },
    () => {},
  ); // Without readings the curve stands alone.
  draw();
  return h(
    'div',
    { class: 'course' },
    h('div', { class: 'presets', role: 'group', 'aria-label': texts.drawTheCurve }, buttons),
    drawn,
    warmth,
  );
}

/** The temperatures on the axis that is chosen; nothing where there are none. */
function warmthBelow({ lines, leftOut, course, trouble }, germination) {
  const overWarmth = chosen === 'heat';
  if (lines.length === 0 || (overWarmth && (trouble || !course || watchedHeat(course) === 0))) return [];
  const fit = course?.fit.identified ? course.fit : null;
  const heats = () => course.rows.flatMap((row) => (row.to ? [row.to.likely] : []));
  const checks = overWarmth ? heats() : germination.checks.map((check) => check.day);
  return [
    warmthFigure({
      lines,
      leftOut,
      base: germination.base,
      axis: chosen,
      x: xAxis(overWarmth ? heatAxis(course) : dayAxis(germination)),
      checks: [...new Set(checks)],
      medianHeat: fit?.medianHeat ?? null,
    }),
  ];
}

/** The axis of days. */
const dayAxis = ({ checks }) => ({
  end: Math.max(1, ...checks.map((check) => check.day)),
  xTitle: texts.daysSinceSowing,
  tickText: (day) => f.number(day, Number.isInteger(day) ? 0 : 1),
});

function overDays(germination, sowing) {
  const { checks, measures } = germination;
  const description = texts.germinatedOfSown(
    sowing.sown,
    checks.map((check) => texts.day(f.number(check.day), check.germinatedSoFar)).join(', '),
  );
  return [
    drawing({
      curve: measures.curve,
      title: texts.germinatedByDaySinceSowing,
      description,
      ...dayAxis(germination),
    }),
    h('p', { class: 'quiet' }, texts.fullLineFoundGerminatedBy, texts.whatWasCulledIsLeft),
    unfolded(
      table(
        texts.eachCheck,
        [
          { title: texts.check, cell: (check) => texts.dayGroup(f.number(check.day, 1), check.group) },
          { title: texts.newlyGerminated, class: 'number', cell: (check) => f.number(check.germinated) },
          {
            title: texts.soFarOfTheSowing,
            class: 'number',
            cell: (check) => `${f.number(check.germinatedSoFar)} (${f.share(check.fractionSoFar)})`,
          },
        ],
        checks,
      ),
    ),
  ];
}
