// The germination curve of one sowing over days or degree-hours, in words and as a table.

import { h, table } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { drawing } from './course-drawing.js';
import { unfolded } from './course-table.js';
import { overHeat } from './heat-course.js';
import { noHeatWords } from './heat-words.js';
import { texts } from './texts.js';

const AXES = { days: texts.overDays, heat: texts.overHeat };

/** The axis chosen last, for all sowings of this page. */
let chosen = 'days';

/**
 * @param germination the answer about the germination of a sowing; @param asked a promise of its course over heat
 * @return an element that fills itself when the answer is there
 */
export function makeCourse(germination, sowing, asked) {
  if (germination.measures.curve.length === 0) return h('p', { class: 'waiting' }, texts.theCurveBeginsWithThe);
  const drawn = h('div');
  const state = { course: null, trouble: null };
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
  };
  asked
    .then(
      (course) => Object.assign(state, { course }),
      (problem) => Object.assign(state, { trouble: noHeatWords(problem) }),
    )
    .then(draw);
  draw();
  return h(
    'div',
    { class: 'course' },
    h('div', { class: 'presets', role: 'group', 'aria-label': texts.drawTheCurve }, buttons),
    drawn,
  );
}

function overDays(germination, sowing) {
  const { checks, measures } = germination;
  const end = Math.max(1, ...checks.map((check) => check.day));
  const description = texts.germinatedOfSown(
    sowing.sown,
    checks.map((check) => texts.day(f.number(check.day), check.germinatedSoFar)).join(', '),
  );
  return [
    drawing({
      curve: measures.curve,
      end,
      title: texts.germinatedByDaySinceSowing,
      description,
      xTitle: texts.daysSinceSowing,
      tickText: (day) => f.number(day, Number.isInteger(day) ? 0 : 1),
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
