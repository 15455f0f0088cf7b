// An entry of the record as it is sent.

import { now } from '../shared/clock.js';

/** Carries the time of the press by the service's clock, since the entry may be sent later. */
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
