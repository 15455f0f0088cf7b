// The number of open alerts beside the link to the page Alerts. Paused alerts do not count.

import { isOpen, isShelved } from './alert-words.js';
import { api } from './api.js';
import { now } from './clock.js';
import { h } from './dom.js';
import { texts } from './texts.js';

/** Returns the functions that keep the number: `load` asks the service, `take` follows one alert. */
export function keepOpenCount(link) {
  const number = h('span', { class: 'count', 'aria-hidden': 'true' });
  const words = h('span', { class: 'unseen' });
  const open = new Set();
  const draw = () => {
    number.textContent = open.size > 0 ? String(open.size) : '';
    words.textContent = open.size > 0 ? texts.open2(open.size) : '';
  };
  link.append(number, words);
  return {
    async load() {
      const alerts = await api.alerts('open');
      open.clear();
      for (const alert of alerts) open.add(alert.id);
      draw();
    },
    take(alert) {
      if (isOpen(alert) && !isShelved(alert, now())) open.add(alert.id);
      else open.delete(alert.id);
      draw();
    },
  };
}
