// The time zone of all times on the pages: the service's, or the browser's where its user has chosen that.

import { texts } from './texts.js';

export const ZONE_KEY = 'tepidarium.zone';
export const BROWSER = 'browser';

export const browserZone = Intl.DateTimeFormat().resolvedOptions().timeZone;
/** The server names it in the html element. */
export const serviceZone = known(globalThis.document?.documentElement?.dataset?.zone);

/** By the browser's own name, since a zone has several; a zone that the browser does not know gives its own. */
function known(zone) {
  if (zone === browserZone) return zone; // to make a form of dates takes long
  try {
    return Intl.DateTimeFormat('en', { timeZone: zone }).resolvedOptions().timeZone;
  } catch {
    return browserZone;
  }
}

function chosen() {
  try {
    return globalThis.localStorage?.getItem(ZONE_KEY) ?? null;
  } catch {
    return null; // storage may be forbidden: then the service's zone
  }
}

/** The same as long as the page is open. */
export const pageZone = chosen() === BROWSER ? browserZone : serviceZone;

/** For the help of a control that takes a date or a time. */
export const zoneHelp = (zone = pageZone) => texts.inZone(zone);
