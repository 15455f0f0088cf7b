// The kinds of alert: title, words and order. Pure.

import * as f from './format.js';

/**
 * The conditions, in the order in which they matter to seeds that die of drying and cold: those first,
 * silence next because it may hide either, slight warmth last.
 */
export const CONDITIONS = {
  cold: {
    title: 'Too cold',
    group: 'are too cold',
    limitWord: 'below',
    worstWord: 'coldest',
    rank: 0,
    unitOf: f.temperature,
  },
  dry: {
    title: 'Too dry',
    group: 'are too dry',
    limitWord: 'below',
    worstWord: 'driest',
    rank: 1,
    unitOf: (v) => `${f.number(v)} %`,
  },
  silent: { title: 'Silent', group: 'are silent', limitWord: '', worstWord: '', rank: 2, unitOf: () => f.UNKNOWN },
  faulty: {
    title: 'Not measured reliably',
    group: 'are not measured reliably',
    limitWord: '',
    worstWord: '',
    rank: 2,
    unitOf: () => f.UNKNOWN,
  },
  headingCold: {
    title: 'Getting too cold',
    group: 'are getting too cold',
    limitWord: '',
    worstWord: '',
    rank: 3,
    unitOf: () => f.UNKNOWN,
  },
  light: {
    title: 'Light inside',
    group: 'have light inside',
    limitWord: 'above',
    worstWord: 'brightest',
    rank: 3,
    unitOf: f.lux,
  },
  hot: {
    title: 'Too hot',
    group: 'are too hot',
    limitWord: 'above',
    worstWord: 'hottest',
    rank: 4,
    unitOf: f.temperature,
  },
  headingHot: {
    title: 'Getting too hot',
    group: 'are getting too hot',
    limitWord: '',
    worstWord: '',
    rank: 5,
    unitOf: () => f.UNKNOWN,
  },
  dryMedium: {
    title: 'Medium dry',
    group: 'are dry in their medium',
    limitWord: 'below',
    worstWord: 'driest',
    rank: 1,
    unitOf: f.mediumMoisture,
  },
  staleAir: {
    title: 'Short of air',
    group: 'are short of air',
    limitWord: 'above',
    worstWord: 'highest',
    rank: 4,
    unitOf: f.ppm,
  },
  battery: {
    title: 'Battery low',
    group: 'are low on battery',
    limitWord: 'below',
    worstWord: 'lowest',
    rank: 6,
    unitOf: (v) => `${f.number(v, 2)} V`,
  },
};

export const conditionOf = (kind) =>
  CONDITIONS[kind] ?? {
    title: kind,
    group: kind,
    limitWord: 'beyond',
    worstWord: 'worst',
    rank: 9,
    unitOf: (v) => f.number(v, 1),
  };
