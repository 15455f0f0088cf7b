// Says in a sentence what a chart shows, and what it shows at one moment. Pure.
//
// A set is {name, columns: [times, mean, min, max]} of one container. A heat chart has [times, sum, sum, at most].

import { now } from '../shared/clock.js';
import * as f from '../shared/format.js';
import { isKnown } from '../shared/series.js';
import * as t from '../shared/time-format.js';
import { texts } from './texts.js';

/**
 * The mean over time, by straight lines between neighbouring samples; time in gaps does not count. The plain mean of
 * the samples where no two are neighbours; null without samples.
 */
export function meanOf([times, means]) {
  let [area, length] = [0, 0];
  for (let i = 1; i < times.length; i++) {
    if (!isKnown(means[i]) || !isKnown(means[i - 1])) continue;
    area += ((means[i] + means[i - 1]) / 2) * (times[i] - times[i - 1]);
    length += times[i] - times[i - 1];
  }
  if (length > 0) return area / length;
  const known = means.filter(isKnown);
  return known.length === 0 ? null : known.reduce((a, b) => a + b) / known.length;
}

/** Lowest and highest value with their times, number of gaps; null without samples. */
export function extremesOf([times, means, mins, maxs]) {
  let [lowest, highest, gaps] = [null, null, 0];
  for (let i = 0; i < times.length; i++) {
    if (means[i] === null && means[i - 1] !== null) gaps++;
    if (isKnown(mins[i]) && (lowest === null || mins[i] < mins[lowest])) lowest = i;
    if (isKnown(maxs[i]) && (highest === null || maxs[i] > maxs[highest])) highest = i;
  }
  if (lowest === null || highest === null) return null;
  return { low: mins[lowest], lowAt: times[lowest], high: maxs[highest], highAt: times[highest], gaps };
}

/**
 * Empty if there is no sample.
 * @param sets those of one or several containers; @param follows whether the stretch ends now
 */
export function sentence(sets, spec, follows) {
  const known = sets.filter((set) => extremesOf(set.columns) !== null);
  if (known.length === 0) return '';
  if (sets.length === 1) return spec.sum ? heatSentence(known[0], spec, follows) : sentenceOfOne(known[0], spec);
  return sentenceOfSeveral(known, sets.length, spec);
}

function sentenceOfOne({ columns }, spec) {
  const { low, lowAt, high, highAt, gaps } = extremesOf(columns);
  const [lowText, highText] = [spec.show(low), spec.show(high)];
  const gapText = gaps > 0 ? texts.withGaps(f.count(gaps, texts.gapCount)) : '';
  if (lowText === highText)
    return columns[1].filter(isKnown).length === 1
      ? texts.onlyOnce(lowText, t.stamp(lowAt, now()))
      : texts.throughout(lowText, gapText);
  const [lowWhen, highWhen] = [t.stamp(lowAt, now()), t.stamp(highAt, now())];
  return texts.fromTo(spec.show(meanOf(columns)), lowText, lowWhen, highText, highWhen, gapText);
}

/** What was added in this stretch, the sum at its end, and the most that gaps could have added. */
function heatSentence({ columns: [, sum, , most] }, spec, follows) {
  const [added, last, upper] = [sum.at(-1) - sum[0], sum.at(-1), most.at(-1)].map((value) => spec.show(value));
  const when = follows ? texts.soFar : texts.byItsEnd;
  return last === upper ? texts.heatAdded(added, last, when) : texts.heatAddedAtMost(added, last, when, upper);
}

function sentenceOfSeveral(known, all, spec) {
  const figure = ({ columns }) => (spec.sum ? columns[1].at(-1) - columns[1][0] : meanOf(columns));
  const sorted = known.map((set) => ({ name: set.name, value: figure(set) })).sort((a, b) => b.value - a.value);
  const [most, least] = [sorted[0], sorted.at(-1)];
  const silent = known.length < all ? texts.withoutReadings(f.number(all - known.length)) : '';
  if (known.length === 1) return texts.onlyOne(most.name, spec.show(most.value)) + silent;
  if (spec.show(most.value) === spec.show(least.value)) return texts.allAlike(spec.show(most.value)) + silent;
  const words = spec.sum ? texts.mostAndLeastHeat : texts.highestAndLowest;
  return words(most.name, spec.show(most.value), least.name, spec.show(least.value)) + silent;
}

/** The index of the sample nearest to a moment; -1 without samples. */
export function nearest(times, at) {
  let [low, high] = [0, times.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (times[middle] < at) low = middle + 1;
    else high = middle;
  }
  return low > 0 && at - times[low - 1] <= times[low] - at ? low - 1 : times.length === 0 ? -1 : low;
}

/** The usual distance of samples (ms): the median. 0 for fewer than two. */
function usualDistance(times) {
  const steps = times.slice(1).map((time, i) => time - times[i]);
  return steps.sort((a, b) => a - b)[steps.length >> 1] ?? 0;
}

/**
 * Whether the sample `i`, the nearest one, stands for a moment: it is no further away than samples usually are, or the
 * moment lies between two samples without a gap, where the chart draws a line.
 */
function standsFor([times, mean], i, at) {
  if (!isKnown(mean[i])) return false;
  const beyond = times[i] < at ? i + 1 : i - 1;
  return isKnown(mean[beyond]) || Math.abs(at - times[i]) <= usualDistance(times);
}

/** The values at a moment, those of each container. */
export function momentWords(sets, spec, at) {
  const parts = sets
    .map((set) => [set.name, valueAt(set, spec, at)])
    .filter(([, value]) => value !== '')
    .map(([name, value]) => (sets.length === 1 ? value : `${name} ${value}`));
  return `${t.stamp(at, now())}: ${parts.join('; ') || f.UNKNOWN}`;
}

function valueAt({ columns, also }, spec, at) {
  const [times, mean, min, max] = columns;
  const i = nearest(times, at);
  if (i < 0) return '';
  const beside = also ? `; ${also.name} ${valueAt(also, spec, at) || f.UNKNOWN}` : '';
  if (!isKnown(mean[i]) || (!spec.sum && !standsFor(columns, i, at))) return texts.nothingHeard + beside;
  if (spec.sum) return spec.show(mean[i]) === spec.show(max[i]) ? spec.show(mean[i]) : atMost(spec, mean[i], max[i]);
  const spread = spec.show(min[i]) === spec.show(max[i]) ? '' : texts.spread(spec.show(min[i]), spec.show(max[i]));
  return spec.show(mean[i]) + spread + beside;
}

const atMost = (spec, sum, most) => texts.atMost(spec.show(sum), spec.show(most));
