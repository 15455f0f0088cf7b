// How the seeds of one sowing came up: the curve over days or over degree-hours, what it says, and the same as a table.

import { curveLines, fittedLine, heatEnd, heatWhiskers, watchedHeat } from './course.js';
import { h, svg, table } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { aboveWords, fitWords, heatNumber, heatUnit, noHeatWords } from './heat-words.js';
import { plot, ticksOf, whisker } from './plot.js';

const AXES = { days: 'Over days', heat: 'Over heat' };
const FATES = { germinated: 'germinated', culled: 'culled', remaining: 'still sound' };

/** The axis chosen last, for all sowings of this page. */
let chosen = 'days';

/**
 * @param told the germination of a sowing; @param asked a promise of its course over heat
 * @return an element that fills itself when the answer is there
 */
export function makeCourse(told, sowing, asked) {
  if (told.measures.curve.length === 0) return h('p', { class: 'waiting' }, 'The curve begins with the first check.');
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
    drawn.replaceChildren(...(chosen === 'days' ? overDays(told, sowing) : overHeat(state, sowing)));
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

const BETWEEN =
  'Full line: found germinated by then. Dashed: they may have germinated as early as that, just after the check before. In the shade between it is not known.';

function overDays(told, sowing) {
  const { checks, measures } = told;
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

function overHeat({ course, trouble }, sowing) {
  if (trouble) return [h('p', { class: 'caution', role: 'status' }, trouble)];
  if (!course) return [h('p', { class: 'waiting' }, 'Adding up the heat …')];
  const watched = watchedHeat(course);
  const words = fitWords(course, watched);
  const sure = h('p', { class: 'headline' }, words.headline);
  const lines = words.lines.map((line) => h('p', {}, line));
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

const unfolded = (content) =>
  h('details', {}, h('summary', {}, 'The same as a table'), h('div', { class: 'table-place' }, content));

/** Two lines and what lies between: a check tells by when, not when. `toShown` turns into the reader's unit. */
function drawing({
  curve,
  end,
  title,
  description,
  xTitle,
  tickText,
  toShown = (value) => value,
  whiskers = [],
  fit = null,
}) {
  const { least, most } = curveLines(curve, end);
  const top = niceTop(Math.max(most.at(-1)[1], fit ? fittedLine(fit, end).at(-1)[1] : 0, 0.02));
  const to = end * 1.02;
  const ratio = toShown(1);
  return h(
    'figure',
    { class: 'curve-figure' },
    plot({
      title,
      description,
      x: {
        from: 0,
        to,
        title: xTitle,
        ticks: ticksOf(0, to * ratio, 5).map((shown) => ({ at: shown / ratio, text: tickText(shown) })),
      },
      y: {
        from: 0,
        to: top,
        ticks: [0, 0.5, 1].map((part) => ({
          at: part * top,
          text: `${f.number(part * top * 100, part * top > 0 && part * top < 0.02 ? 1 : 0)} %`,
        })),
      },
      draw: (place) => [
        svg('polygon', { class: 'between', points: `${place.points(most)} ${place.points([...least].reverse())}` }),
        svg('polyline', { class: 'most', points: place.points(most) }),
        svg('polyline', { class: 'least', points: place.points(least) }),
        whiskers.map((one) => whisker(place, { ...one, className: 'whisker' })),
        fit && [
          svg('polyline', { class: 'fitted', points: place.points(fittedLine(fit, to)) }),
          fit.medianHeat <= end && half(place, fit),
        ],
      ],
    }),
  );
}

function half(place, { medianHeat, medianInterval, finalFraction }) {
  const at = finalFraction / 2;
  const [low, high] = medianInterval ?? [null, null];
  return svg(
    'g',
    { class: 'half' },
    whisker(place, { low, high, at, className: 'half-bar' }),
    svg('circle', { cx: place.x(medianHeat), cy: place.y(at), r: 4 }),
  );
}

const niceTop = (most) => [0.02, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.8].find((top) => top >= most) ?? 1;
