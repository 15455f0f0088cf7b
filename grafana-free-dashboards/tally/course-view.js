// The germination curve of one sowing over days or degree-hours, in words and as a table.

import { h, table } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { drawing } from './course-drawing.js';
import { overHeat } from './heat-course.js';
import { noHeatWords } from './heat-words.js';

const AXES = { days: 'Over days', heat: 'Over heat' };
export const FATES = { germinated: 'germinated', culled: 'culled', remaining: 'still sound' };

/** The axis chosen last, for all sowings of this page. */
let chosen = 'days';

/**
 * @param germination the answer about the germination of a sowing; @param asked a promise of its course over heat
 * @return an element that fills itself when the answer is there
 */
export function makeCourse(germination, sowing, asked) {
  if (germination.measures.curve.length === 0)
    return h('p', { class: 'waiting' }, 'The curve begins with the first check.');
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
    h('div', { class: 'presets', role: 'group', 'aria-label': 'Draw the curve' }, buttons),
    drawn,
  );
}

export const BETWEEN =
  'Full line: found germinated by then. Dashed: they may have germinated as early as that, just after the check before. In the shade between it is not known.';

function overDays(germination, sowing) {
  const { checks, measures } = germination;
  const end = Math.max(1, ...checks.map((check) => check.day));
  const description = `Germinated of ${sowing.sown} sown: ${checks.map((check) => `day ${f.number(check.day)}: ${check.germinatedSoFar}`).join(', ')}.`;
  return [
    drawing({
      curve: measures.curve,
      end,
      title: 'Germinated, by day since sowing',
      description,
      xTitle: 'days since sowing',
      tickText: (day) => f.number(day, Number.isInteger(day) ? 0 : 1),
    }),
    h(
      'p',
      { class: 'quiet' },
      BETWEEN,
      ' What was culled is left out from then on, so that the curve can end above the plain fraction.',
    ),
    unfolded(
      table(
        'Each check',
        [
          { title: 'Check', cell: (check) => `day ${f.number(check.day, 1)}, group ${check.group}` },
          { title: 'Newly germinated', class: 'number', cell: (check) => f.number(check.germinated) },
          {
            title: 'So far, of the sowing',
            class: 'number',
            cell: (check) => `${f.number(check.germinatedSoFar)} (${f.share(check.fractionSoFar)})`,
          },
        ],
        checks,
      ),
    ),
  ];
}

export const unfolded = (content) =>
  h('details', {}, h('summary', {}, 'The same as a table'), h('div', { class: 'table-place' }, content));
