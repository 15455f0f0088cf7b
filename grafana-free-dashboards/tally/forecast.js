// When the next are expected in each group of a sowing, if the heat goes on, and so the best day to look.

import { now } from '../shared/clock.js';
import { h } from '../shared/dom.js';
import * as t from '../shared/time-format.js';
import { forecastWords } from './forecast-words.js';
import { noHeatWords } from './heat-words.js';
import { texts } from './texts.js';
import { checkWhy, noForecastWords } from './why-words.js';

/**
 * Shows each group with the time of its next check, and adds the forecasts by heat when they have loaded.
 * @param asked promise of the heat course
 */
export function forecasts(sowing, names, asked) {
  const groups = sowing.groups.filter((group) => group.nextCheck);
  const place = h('div', { class: 'forecasts' }, list(groups, names, []));
  if (groups.length === 0) return place;
  asked.then(
    (course) => {
      const { forecasts: found } = course;
      const none = noForecastWords(course);
      place.replaceChildren(
        list(groups, names, found),
        ...(none
          ? [
              h(
                'p',
                { class: 'quiet' },
                `${found.length === 0 ? texts.noForecastByHeat : texts.noForecastByHeatFor}: ${none}.`,
              ),
            ]
          : []),
      );
    },
    (problem) => place.append(h('p', { class: 'quiet' }, noHeatWords(problem))),
  );
  return place;
}

function list(groups, names, found) {
  return h(
    'ul',
    {},
    groups.map((group) => {
      const forecast = found.find((one) => one.group === group.id);
      const where = texts.groupIn(group.id, names(group.container));
      if (!forecast)
        return h('li', {}, texts.check2(where, t.stamp(group.nextCheck.at, now()), checkWhy(group.nextCheck)));
      const words = forecastWords(forecast, group.nextCheck, now());
      return h('li', { class: 'forecast' }, `${where}: ${words.line} `, h('strong', {}, words.best));
    }),
  );
}
