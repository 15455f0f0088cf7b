// What a container can measure: title, words for a value, words where nothing measures it. Pure.

import * as f from './format.js';

/** `always`: has a place on each card and page, measured or not. `label`: stands before a value in a line of values. */
export const QUANTITIES = [
  { key: 'temperature', title: 'Temperature', show: f.temperature, missing: 'never measured', always: true },
  { key: 'humidity', title: 'Humidity', show: f.humidity, missing: 'not measured', always: true },
  { key: 'light', title: 'Light', show: f.lux, missing: 'not measured', always: true },
  { key: 'co2', title: 'CO₂', label: 'CO₂ ', unit: 'ppm', show: f.ppm, missing: 'not measured' },
  {
    key: 'mediumMoisture',
    title: 'Medium',
    label: 'medium ',
    unit: '%',
    show: f.mediumMoisture,
    missing: 'not measured',
  },
];

/** Those that are measured only in some containers. */
export const RARE = QUANTITIES.filter((quantity) => !quantity.always);
