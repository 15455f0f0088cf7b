// The newest values of a sensor as one line. Pure.

import * as f from './format.js';
import { QUANTITIES } from './quantities.js';
import { texts } from './texts.js';

export function latestWords(sensor) {
  const latest = sensor.latest ?? {};
  const parts = [
    ...QUANTITIES.filter(({ key }) => latest[key]).map(({ key, label = '', show }) => label + show(latest[key].value)),
    latest.battery && texts.battery(f.volts(latest.battery.value)),
    sensor.uncertain && texts.ofUncertainTime(f.count(sensor.uncertain.count, texts.readingCount)),
  ];
  return parts.filter(Boolean).join(' · ') || texts.noValuesYet;
}
