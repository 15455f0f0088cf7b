// A comparison on the page: the verdict, the bars, the figures, and how they are worked out.

import { now } from '../shared/clock.js';
import { h } from '../shared/dom.js';
import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';
import { drawHeatBars } from './bars.js';
import { comparisonSentence, permutationNote } from './sentences.js';
import { tablePlace } from './tables.js';
import { COMPARED_TITLES, PAIR_TITLES, comparedRows, faultSentences, leftOut, pairRows } from './words.js';

const INTERVAL_NOTE =
  'Where the weather stays alike for a day or two, these intervals are too narrow: some hold the truth in only 82 of 100 cases.';

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
      `Each by itself, from ${t.stamp(answer.from, now())} to ${t.stamp(answer.to, now())}. Heat above ${f.temperature(answer.base)}; below each figure its 95 % interval.`,
      COMPARED_TITLES,
      comparedRows(answer),
    ),
    h('h3', {}, 'Differences'),
    tablePlace(
      'Over the hours that were well covered in both; below each figure its 95 % interval. An interval with zero in it shows no difference.',
      PAIR_TITLES,
      pairs,
    ),
    ...(pairs.length > 1 ? [h('ul', { class: 'pair-words' }, pairs.map(pairLine))] : []),
    h(
      'details',
      {},
      h('summary', {}, 'How is this worked out?'),
      h(
        'p',
        {},
        'Only hours that were well covered in both count. An interval holds the true value in 95 of 100 cases.',
      ),
      h(
        'p',
        { class: 'interval-note' },
        `${INTERVAL_NOTE} `,
        h('a', { href: '/figures.html#how-often-the-intervals-hold' }, 'How often?'),
      ),
      ...answer.pairs
        .map((pair) => permutationNote(answer, pair))
        .filter((note) => note)
        .map((note) => h('p', {}, note)),
      h('p', {}, h('a', { href: '/figures.html#heat-bench' }, 'All figures')),
    ),
  ];
}

const pairLine = (pair) => h('li', {}, pair.words);
