// Keeps what became of the notices about each alert.

import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';
import { byId, setText } from '../shared/dom.js';
import { replaceAll } from '../shared/maps.js';
import { nobodyWords, toldWords } from './told-words.js';

export function makeTold() {
  const byAlert = new Map();
  return {
    async load() {
      const [all, notifiers] = await Promise.all([api.noticesOfAlerts(), api.notifiers()]);
      replaceAll(byAlert, all, (one) => one.alert);
      const words = nobodyWords(notifiers);
      byId('nobody').hidden = words === '';
      setText(byId('nobody').firstElementChild, words);
    },
    /** Lines about an alert. */
    of: (id, alert) => toldWords(byAlert.get(id), alert ?? {}, now()),
  };
}
