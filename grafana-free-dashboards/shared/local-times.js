// Puts the service's instants (UTC) into the browser's time in a message. Pure except for withLocalTimes.

import { now } from './clock.js';
import { stamp } from './time-format.js';

const INSTANT = /\d{4}-\d\d-\d\dT\d\d:\d\d(?::\d\d(?:\.\d+)?)?Z/g;

export const localTimes = (text, at, zone) => text.replace(INSTANT, (instant) => stamp(instant, at, zone));

/** Runs `work`; a failure that it throws tells its times in the browser's time. */
export async function withLocalTimes(work) {
  try {
    return await work();
  } catch (problem) {
    problem.message = localTimes(problem.message, now());
    throw problem;
  }
}
