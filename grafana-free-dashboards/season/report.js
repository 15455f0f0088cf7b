// The report of a season: head, lessons, sowings, containers, comparisons, earlier seasons.

import { h } from '../shared/dom.js';
import * as f from '../shared/format.js';
import * as t from '../shared/time-format.js';
import * as compared from './comparison-words.js';
import * as containerWords from './container-rows.js';
import { part, rowsTable } from './tables.js';
import * as words from './words.js';

const zone = t.browserZone();

/** @param shown a report with its name, instant and remark if it was kept */
export function reportParts(shown) {
  const { report } = shown;
  return [
    ...head(shown),
    ...lessons(report),
    ...sowings(report),
    ...containers(report),
    ...comparisons(report),
    ...earlier(report),
    h(
      'section',
      { class: 'small-print' },
      words.smallPrint(report).map((line) => h('p', {}, line)),
    ),
  ];
}

function head({ report, name, keptAt, remark }) {
  const span = words.spanWords(report, zone);
  return [
    h('h2', { id: 'report-title', class: 'report-title' }, name ? `${name}, ${span}` : `Season ${span}`),
    keptAt && h('p', { class: 'quiet' }, `Kept on ${words.dateOf(keptAt, zone)}; the figures are those of then.`),
    remark && h('p', {}, remark),
    ...words.headlines(report).map((line) => h('p', { class: 'headline' }, line)),
  ].filter(Boolean);
}

function lessons(report) {
  const rows = report.lessons.map((one) => h('li', { data: { kind: one.kind } }, words.lessonWords(one.words)));
  return [
    part(
      'Lessons',
      rows.length > 0
        ? h('ol', { class: 'lessons' }, rows)
        : h('p', { class: 'quiet' }, 'No lesson found by the rules of this page.'),
    ),
  ];
}

function sowings(report) {
  if (report.sowings.length === 0) return [];
  return [
    part(
      'Sown and come up',
      rowsTable('Below a fraction stands its interval.', 'Sowing', words.SOWING_TITLES, words.sowingRows(report, zone)),
    ),
  ];
}

function containers(report) {
  if (report.containers.length === 0)
    return [part('Containers', h('p', { class: 'quiet' }, 'No container held seeds or was measured in this season.'))];
  return [
    part(
      'Containers',
      rowsTable(
        'Over the time that was measured.',
        'Container',
        containerWords.CONTAINER_TITLES,
        containerWords.containerRows(report),
      ),
    ),
  ];
}

function comparisons(report) {
  const made = [];
  if (report.pairs.length > 0) {
    const more = report.pairsLeftOut > 0 ? ` ${f.count(report.pairsLeftOut, 'pair')} with fewer seeds left out.` : '';
    made.push(
      rowsTable(
        `Sowings of one species. An interval with zero in it shows no difference.${more}`,
        'Sowings',
        compared.PAIR_TITLES,
        compared.pairRows(report),
      ),
    );
  }
  if (report.heatSources) {
    made.push(
      rowsTable(
        `Heat sources, all above ${f.temperature(report.heatSources.base)}.`,
        'Heat source',
        compared.SOURCE_TITLES,
        compared.sourceRows(report.heatSources),
      ),
      h('p', {}, report.heatSources.verdict),
    );
  }
  return made.length > 0 ? [part('Compared', ...made)] : [];
}

function earlier(report) {
  if (report.earlier.length === 0) return [];
  const rows = compared.earlierRows(report, zone);
  return [
    part(
      'Against earlier seasons',
      rows.length > 0
        ? rowsTable('Seeds of all sowings of a species together.', 'Species', compared.EARLIER_TITLES, rows)
        : h('p', {}, 'No species was sown in both.'),
      ...compared.earlierHeat(report).map((line) => h('p', {}, line)),
    ),
  ];
}
