// Says which stretch of time charts show, and how to change it. Pure.

import { pageZone } from '../shared/zone.js';
import { now } from '../shared/clock.js';
import * as t from '../shared/time-format.js';
import { texts } from './texts.js';

/** @param follows whether the stretch ends now, and goes on */
export const rangeWords = ({ from, to }, follows) =>
  texts.shownFromTo(t.stamp(from, now()), follows ? texts.now : t.stamp(to, now()), pageZone);
