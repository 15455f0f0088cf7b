// Puts the service's instants (UTC) into the browser's time in a message. Pure.

import { stamp } from './time-format.js';

const INSTANT = /\d{4}-\d\d-\d\dT\d\d:\d\d(?::\d\d(?:\.\d+)?)?Z/g;

export const localTimes = (text, at, zone) => text.replace(INSTANT, (instant) => stamp(instant, at, zone));
