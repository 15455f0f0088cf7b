// An entry of the record as it is sent.

import { now } from '../shared/clock.js';

/** The time of the press, by the service's clock, so that what is sent later still counts for then. */
export const entryOf = (kind, group, what, path, body) => ({
  kind,
  group,
  what,
  path,
  writtenAt: new Date(now()).toISOString(),
  body: { at: new Date(now()).toISOString(), ...body },
});
export const pathOf = (group, what) => `/api/groups/${encodeURIComponent(group)}/${what}`;
export const given = (at) => (at === null ? {} : { at });
