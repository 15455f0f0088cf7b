// The parts of the service in words. Pure.

import { capital } from '../shared/text.js';

const STATES = { up: 'works', down: 'does not work', starting: 'is starting' };

/** One row for each part, those that do not work first. */
export const partRows = (parts) =>
  Object.entries(parts)
    .map(([name, { status, detail }]) => ({
      title: capital(name),
      works: status === 'up',
      state: STATES[status] ?? status,
      detail: detail ?? '',
    }))
    .sort((a, b) => a.works - b.works);
