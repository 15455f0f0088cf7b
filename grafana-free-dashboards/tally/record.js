// The record of one sowing: what next, the curve, measures, every entry with its correction.

import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';
import { h } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { makeCourse } from './course-view.js';
import { record } from './entries.js';
import { forecasts } from './forecast.js';
import { fractionWords, hasIndices, indexRows, measureRows, prospectWords } from './seed-words.js';
import { replicateWords } from './compare-words.js';
import { seedsToGather } from './seeds-to-gather.js';
import { noFitWords } from './no-fit.js';
import { texts } from './texts.js';

/** The newest request for each place. Answers to older requests are not drawn. */
const newest = new WeakMap();

/** @param place to fill; @param context names(container), species, write(entry), refresh() */
export async function showRecord(place, sowing, context) {
  const mine = {};
  newest.set(place, mine);
  const asked = api.heatCourse(sowing.id);
  asked.catch(() => {}); // shown in place of the answer
  const [germination, entries] = await Promise.all([api.germination(sowing.id), api.entries(sowing.id)]);
  if (newest.get(place) !== mine) return;
  const output = h('div');
  place.replaceChildren(
    h('h4', {}, texts.whatNext),
    whatNext(germination, sowing, context),
    forecasts(sowing, context.names, asked),
    h('h4', {}, texts.howTheyCameUp),
    makeCourse(germination, sowing, asked, context.names),
    measureList(measureRows(germination)),
    ...indices(germination),
    bestFit(germination),
    ...replicates(germination),
    h('h4', {}, texts.seedsToGatherNextTime),
    seedsToGather(germination, sowing),
    h('h4', {}, texts.theRecord),
    output,
    record(entries, sowing, context, output),
  );
}

const measureList = (rows) =>
  h(
    'dl',
    { class: 'measures' },
    rows.flatMap(([title, value]) => [h('dt', {}, title), h('dd', {}, value)]),
  );

/** The indices of the literature, folded away, once they mean something. */
const indices = ({ measures, checks }) =>
  hasIndices(checks)
    ? [h('details', {}, h('summary', {}, texts.indicesForPublications), measureList(indexRows(measures)))]
    : [];

function whatNext(germination, sowing, { species }) {
  const day = (now() - Date.parse(germination.sownAt)) / 86_400_000;
  const words = prospectWords({
    prospect: germination.prospect,
    remaining: germination.remaining,
    day,
    giveUpDays: species?.figures.giveUpDays?.value ?? null,
  });
  return h(
    'div',
    { class: 'next' },
    h('p', { class: 'headline' }, words.headline),
    words.lines.map((line) => h('p', {}, line)),
    words.assumption && h('p', { class: 'quiet' }, words.assumption),
  );
}

function bestFit({ fits: { best, fits, finalFractionInterval }, checks }) {
  const fit = fits.find((one) => one.model === best);
  if (!fit) return h('p', { class: 'quiet' }, texts.noCurveCanBeFitted(noFitWords(fits.at(-1)) || texts.tooFew));
  const name = fit.model.replace('WithFinalFraction', '');
  const final = finalFractionInterval
    ? texts.inTheEndGerminateThe(fractionWords(fit.finalFraction, finalFractionInterval))
    : texts.theseCountsDoNotShow;
  const watched = Math.max(0, ...checks.map((check) => check.day));
  const half = fit.medianReason
    ? texts.halfTooFar
    : fit.median <= watched
      ? texts.halfOfThoseThatEver(f.number(fit.median, 1))
      : texts.halfOfThoseThatEver2;
  return h('p', { class: 'quiet' }, texts.bestOfSixFittedCurves(name, half, final));
}

/** Several groups of one sowing are replicates of each other. */
function replicates(germination) {
  const words = replicateWords(germination.replicates);
  return words === null
    ? []
    : [
        h(
          'div',
          { class: 'replicates' },
          h('h4', {}, texts.groupsAgainstEachOther),
          h('p', { class: 'headline' }, words.headline),
          words.lines.map((line) => h('p', {}, line)),
        ),
      ];
}
