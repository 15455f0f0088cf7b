// The newest values of a sensor as one line. Pure.

import * as f from './format.js';
import { QUANTITIES } from './quantities.js';

export function latestWords(sensor) {
  const latest = sensor.latest ?? {};
  const parts = [
    ...QUANTITIES.filter(({ key }) => latest[key]).map(({ key, label = '', show }) => label + show(latest[key].value)),
    latest.battery && `battery ${f.volts(latest.battery.value)}`,
    sensor.uncertain && `${f.count(sensor.uncertain.count, 'reading')} of uncertain time`,
  ];
  return parts.filter(Boolean).join(' · ') || 'no values yet';
}
