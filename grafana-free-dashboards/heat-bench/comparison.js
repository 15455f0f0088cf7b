// A comparison on the page: the verdict, the bars, the figures, and how they are worked out.

import { now } from '../shared/clock.js';
import { h } from '../shared/dom.js';
import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';
import { drawHeatBars } from './bars.js';
import { comparisonSentence, pairSentence } from '../shared/bench-words.js';
import { permutationNote } from './sentences.js';
import { tablePlace } from './tables.js';
import { COMPARED_TITLES, PAIR_TITLES, comparedRows, faultSentences, leftOut, pairRows } from './words.js';
import { texts } from './texts.js';

const INTERVAL_NOTE = texts.whereTheWeatherStaysAlike;

/** The elements for an answer of the service, in reading order. */
export function comparisonParts(answer, containers) {
  const pairs = pairRows(answer);
  const finding = pairs.length === 1 ? pairs[0].finding : 'several';
  const nameOf = (id) => containers.find((one) => one.id === id)?.name ?? id;
  return [
    h('p', { class: 'bench-verdict', data: { finding } }, comparisonSentence(answer)),
    ...[leftOut(answer, nameOf), ...faultSentences(answer)]
      .filter((text) => text)
      .map((text) => h('p', { class: 'caution' }, text)),
    drawHeatBars(answer),
    tablePlace(
      texts.eachByItselfFromTo(t.stamp(answer.from, now()), t.stamp(answer.to, now()), f.temperature(answer.base)),
      COMPARED_TITLES,
      comparedRows(answer),
    ),
    h('h3', {}, texts.differences),
    tablePlace(texts.overTheHoursThatWere, PAIR_TITLES, pairs),
    ...(pairs.length > 1
      ? [
          h(
            'ul',
            { class: 'pair-words' },
            pairs.map((pair) => pairLine(answer, pair)),
          ),
        ]
      : []),
    h(
      'details',
      {},
      h('summary', {}, texts.howIsThisWorkedOut),
      h('p', {}, texts.onlyHoursThatWereWell),
      h(
        'p',
        { class: 'interval-note' },
        `${INTERVAL_NOTE} `,
        h('a', { href: '/figures.html#how-often-the-intervals-hold' }, texts.howOften),
      ),
      ...answer.pairs
        .map((pair) => permutationNote(answer, pair))
        .filter((note) => note)
        .map((note) => h('p', {}, note)),
      h('p', {}, h('a', { href: '/figures.html#heat-bench' }, texts.allFigures)),
    ),
  ];
}

const pairLine = (answer, pair) => h('li', {}, pairSentence(answer, pair));
