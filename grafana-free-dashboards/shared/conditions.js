// The kinds of alert: title, words and order. Pure.

import * as f from './format.js';
import { texts } from './texts.js';

/**
 * The conditions, in the order in which they matter to seeds that die of drying and cold: those first,
 * silence next because it may hide either, slight warmth last.
 */
export const CONDITIONS = {
  cold: {
    title: texts.tooCold,
    group: texts.areTooCold,
    limitWord: texts.below,
    worstWord: texts.coldest,
    rank: 0,
    unitOf: f.temperature,
  },
  dry: {
    title: texts.tooDry,
    group: texts.areTooDry,
    limitWord: texts.below,
    worstWord: texts.driest,
    rank: 1,
    unitOf: (v) => `${f.number(v)} %`,
  },
  silent: {
    title: texts.silent,
    group: texts.areSilent,
    limitWord: '',
    worstWord: '',
    rank: 2,
    unitOf: () => f.UNKNOWN,
  },
  faulty: {
    title: texts.notMeasuredReliably,
    group: texts.areNotMeasuredReliably,
    limitWord: '',
    worstWord: '',
    rank: 2,
    unitOf: () => f.UNKNOWN,
  },
  headingCold: {
    title: texts.gettingTooCold,
    group: texts.areGettingTooCold,
    limitWord: '',
    worstWord: '',
    rank: 3,
    unitOf: () => f.UNKNOWN,
  },
  light: {
    title: texts.lightInside,
    group: texts.haveLightInside,
    limitWord: texts.above,
    worstWord: texts.brightest,
    rank: 3,
    unitOf: f.lux,
  },
  hot: {
    title: texts.tooHot,
    group: texts.areTooHot,
    limitWord: texts.above,
    worstWord: texts.hottest,
    rank: 4,
    unitOf: f.temperature,
  },
  headingHot: {
    title: texts.gettingTooHot,
    group: texts.areGettingTooHot,
    limitWord: '',
    worstWord: '',
    rank: 5,
    unitOf: () => f.UNKNOWN,
  },
  dryMedium: {
    title: texts.mediumDry,
    group: texts.areDryInTheirMedium,
    limitWord: texts.below,
    worstWord: texts.driest,
    rank: 1,
    unitOf: f.mediumMoisture,
  },
  staleAir: {
    title: texts.shortOfAir,
    group: texts.areShortOfAir,
    limitWord: texts.above,
    worstWord: texts.highest,
    rank: 4,
    unitOf: f.ppm,
  },
  battery: {
    title: texts.batteryLow,
    group: texts.areLowOnBattery,
    limitWord: texts.below,
    worstWord: texts.lowest,
    rank: 6,
    unitOf: (v) => `${f.number(v, 2)} V`,
  },
};

export const conditionOf = (kind) =>
  CONDITIONS[kind] ?? {
    title: kind,
    group: kind,
    limitWord: texts.beyond,
    worstWord: texts.worst,
    rank: 9,
    unitOf: (v) => f.number(v, 1),
  };
