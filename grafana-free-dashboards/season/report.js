// The report of a season: head, lessons, sowings, containers, comparisons, earlier seasons.

import { h } from '../shared/dom.js';
import * as f from '../shared/format.js';
import * as compared from './comparison-words.js';
import * as containerWords from './container-rows.js';
import { lessonText, sourcesVerdict } from './lessons.js';
import { lessonPicture } from './picture.js';
import { part, rowsTable } from './tables.js';
import * as words from './words.js';
import { pageZone } from '../shared/zone.js';
import { texts } from './texts.js';

const zone = pageZone;

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
    h('h2', { id: 'report-title', class: 'report-title' }, name ? `${name}, ${span}` : texts.season(span)),
    keptAt && h('p', { class: 'quiet' }, texts.keptOnTheFiguresAre(words.dateOf(keptAt, zone))),
    remark && h('p', {}, remark),
    ...words.headlines(report).map((line) => h('p', { class: 'headline' }, line)),
    report.sowings.length === 0 &&
      !keptAt &&
      h('p', { class: 'next-step' }, h('a', { href: '/tally.html' }, texts.recordASowing)),
  ].filter(Boolean);
}

function lessons(report) {
  const rows = report.lessons.map((one) =>
    h('li', { data: { kind: one.kind } }, lessonText(one), lessonPicture(one, report)),
  );
  return [
    part(
      texts.lessons,
      rows.length > 0 ? h('ol', { class: 'lessons' }, rows) : h('p', { class: 'quiet' }, texts.noLessonFoundByThe),
    ),
  ];
}

function sowings(report) {
  if (report.sowings.length === 0) return [];
  return [
    part(
      texts.sownAndComeUp,
      rowsTable(texts.belowAFractionStandsIts, texts.sowing, words.SOWING_TITLES, words.sowingRows(report, zone)),
    ),
  ];
}

function containers(report) {
  if (report.containers.length === 0)
    return [part(texts.containers, h('p', { class: 'quiet' }, texts.noContainerHeldSeedsOr))];
  return [
    part(
      texts.containers,
      rowsTable(
        texts.overTheTimeThatWas,
        texts.container,
        containerWords.CONTAINER_TITLES,
        containerWords.containerRows(report),
      ),
    ),
  ];
}

function comparisons(report) {
  const made = [];
  if (report.pairs.length > 0) {
    const more =
      report.pairsLeftOut > 0 ? texts.withFewerSeedsLeftOut(f.count(report.pairsLeftOut, texts.pairCount)) : '';
    made.push(
      rowsTable(texts.sowingsOfOneSpeciesAn(more), texts.sowings, compared.PAIR_TITLES, compared.pairRows(report)),
    );
  }
  if (report.heatSources) {
    made.push(
      rowsTable(
        texts.heatSourcesAllAbove(f.temperature(report.heatSources.base)),
        texts.heatSource,
        compared.SOURCE_TITLES,
        compared.sourceRows(report.heatSources),
      ),
      h('p', {}, sourcesVerdict(report.heatSources)),
    );
  }
  return made.length > 0 ? [part(texts.compared, ...made)] : [];
}

function earlier(report) {
  if (report.earlier.length === 0) return [];
  const rows = compared.earlierRows(report, zone);
  return [
    part(
      texts.againstEarlierSeasons,
      rows.length > 0
        ? rowsTable(texts.seedsOfAllSowingsOf, texts.species, compared.EARLIER_TITLES, rows)
        : h('p', {}, texts.noSpeciesWasSownIn),
      ...compared.earlierHeat(report).map((line) => h('p', {}, line)),
    ),
  ];
}
