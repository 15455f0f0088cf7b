// Names the time zone at the top of a page and at its controls of dates, and changes it.

import { h } from './dom.js';
import { BROWSER, ZONE_KEY, browserZone, pageZone, serviceZone, zoneHelp } from './zone.js';
import { texts } from './texts.js';

/** Names the zone at the top of the page; a button changes it where browser and service differ. */
export function zoneLine() {
  const other = pageZone === serviceZone ? browserZone : serviceZone;
  const button =
    other !== pageZone &&
    h(
      'button',
      { type: 'button', id: 'change-zone', class: 'plain', on: { click: changeZone } },
      other === browserZone ? texts.useTheZoneOfThisDevice(other) : texts.useTheZoneOfTheService(other),
    );
  return h('p', { id: 'zone', class: 'quiet' }, texts.timesAsInZone(pageZone), ' ', button || '');
}

function changeZone() {
  try {
    if (pageZone === serviceZone) localStorage.setItem(ZONE_KEY, BROWSER);
    else localStorage.removeItem(ZONE_KEY);
  } catch {
    /* storage may be forbidden: then the zone stays the service’s */
  }
  globalThis.location.reload();
}

/** Says at each control of the HTML that takes a date in which zone it is. */
export function sayZoneAtDates() {
  for (const input of document.querySelectorAll('main input[type=date], main input[type=datetime-local]')) {
    if (input.hasAttribute('aria-describedby')) continue;
    const help = h('span', { class: 'help', id: `${input.id}-zone` }, zoneHelp());
    input.setAttribute('aria-describedby', help.id);
    input.after(help);
  }
}
