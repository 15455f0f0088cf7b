// What a container can measure: title, words for a value, words where nothing measures it. Pure.

import * as f from './format.js';
import { texts } from './texts.js';

/** `always`: has a place on each card and page, measured or not. `label`: stands before a value in a line of values. */
export const QUANTITIES = [
  { key: 'temperature', title: texts.temperature, show: f.temperature, missing: texts.neverMeasured, always: true },
  { key: 'humidity', title: texts.humidity, show: f.humidity, missing: texts.notMeasured2, always: true },
  { key: 'light', title: texts.light, show: f.lux, missing: texts.notMeasured2, always: true },
  { key: 'co2', title: texts.co2, label: texts.co22, unit: 'ppm', show: f.ppm, missing: texts.notMeasured2 },
  {
    key: 'mediumMoisture',
    title: texts.medium,
    label: texts.medium2,
    unit: '%',
    show: f.mediumMoisture,
    missing: texts.notMeasured2,
  },
];

/** Those that are measured only in some containers. */
export const RARE = QUANTITIES.filter((quantity) => !quantity.always);
