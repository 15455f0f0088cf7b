// The parts of the service in words. Pure.

import { localTimes } from '../shared/local-times.js';
import { capital, listed } from '../shared/text.js';
import { texts } from './texts.js';

const STATES = { up: texts.works, down: texts.doesNotWork, starting: texts.isStarting };

/** “sensorAccounts” as “Sensor accounts”. */
const partTitle = (name) => capital(name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`));

/** Which machine works, and which wait. */
export const workingWords = (machine, waiting) =>
  waiting.length === 0
    ? texts.worksAlone(machine)
    : texts.worksAndWait(
        machine,
        listed(waiting.map((one) => (one.reachesBroker ? one.machine : texts.withoutBroker(one.machine)))),
      );

/** One row for each part, those that do not work first. */
export const partRows = (parts, at, zone) =>
  Object.entries(parts)
    .map(([name, { status, detail }]) => ({
      title: texts.parts[name] ?? partTitle(name),
      works: status === 'up',
      state: STATES[status] ?? status,
      meaning: status === 'down' ? (texts.partsDown[name] ?? '') : '',
      detail: localTimes(detail ?? '', at, zone),
    }))
    .sort((a, b) => a.works - b.works);
