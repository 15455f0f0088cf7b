// The tabs of the Alerts page. The chosen one stands in the address.

import { byId, h } from '../shared/dom.js';
import { texts } from './texts.js';

export const TABS = {
  open: texts.open2,
  shelved: texts.paused2,
  history: texts.history,
  figures: texts.figures,
  notices: texts.notices,
};

/** The tab in the address. */
export const tab = () => (location.hash.slice(1) in TABS ? location.hash.slice(1) : 'open');

/** @param shown called after another tab was chosen */
export function makeTabs(shown) {
  byId('tabs').append(
    h(
      'ul',
      {},
      Object.entries(TABS).map(([key, title]) => h('li', {}, h('a', { id: `tab-${key}`, href: `#${key}` }, title))),
    ),
  );
  globalThis.addEventListener('hashchange', () => {
    showTab();
    shown();
  });
}

export function showTab() {
  for (const key of Object.keys(TABS)) {
    byId(`part-${key}`).hidden = key !== tab();
    if (key === tab()) byId(`tab-${key}`).setAttribute('aria-current', 'true');
    else byId(`tab-${key}`).removeAttribute('aria-current');
  }
}
