// Why the service raised or changed an alert, by the code of the reason and its figures. Pure.

import { conditionOf } from './conditions.js';
import * as f from './format.js';
import { long, valueWords } from './fault-reasons.js';
import * as t from './time-format.js';
import { texts } from './texts.js';

const POWER_ON = { quantity: 'temperature', value: 85 };
const HOUR = 3600;

const measured = ({ quantity }, value) => valueWords({ quantity }, value);
const differing = ({ quantity }, value) => valueWords({ kind: 'drift', quantity }, value);

export const trendWords = ({ value, perHour, steady }) =>
  texts.trend(f.temperature(value), f.temperatureChange(perHour), f.temperature(steady));

/** By code; with the figures, the kind of the alert and the present time. */
export const ALERT_REASONS = {
  trend: trendWords,
  'not-measurable': (of) => texts.signNotMeasurable(of.sensor, measured(of, of.value)),
  'power-on': (of) => texts.signPowerOn(of.sensor, measured(POWER_ON, POWER_ON.value)),
  impossible: (of) => texts.signImpossible(of.sensor, measured(of, of.value)),
  stuck: (of) => texts.signStuck(of.sensor, measured(of, of.value), long(of.hours * HOUR)),
  jumping: (of) => texts.signJumping(of.sensor, differing(of, of.step)),
  disagreeing: (of) => texts.signDisagreeing(of.sensor, of.other, differing(of, of.difference)),
  'came-true': (of) => texts.itCameTrue(conditionOf(of.kind).title),
  'no-sensor': () => texts.noSensorAnyMore,
  'began-earlier': (of, kind, now) => texts.beganEarlier(t.stamp(of.since, now)),
  before: (of, kind, now) => {
    const since = t.stamp(of.since, now);
    const worst =
      of.worst === undefined ? '' : `, ${conditionOf(kind).worstWord} ${conditionOf(kind).unitOf(of.worst)}`;
    return of.until ? texts.timeBefore(since, t.stamp(of.until, now), worst) : texts.timeBeforeFrom(since, worst);
  },
};

/** The reasons as parts of a sentence; empty for none, or if a later version sent one. @param kind of the alert */
export function alertReasons(reasons, kind, now) {
  const all = reasons ?? [];
  if (!all.every(({ code }) => Object.hasOwn(ALERT_REASONS, code))) return '';
  return all.map(({ code, figures }) => ALERT_REASONS[code](figures, kind, now)).join('; ');
}
