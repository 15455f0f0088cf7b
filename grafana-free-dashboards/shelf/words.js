// The words of the shelf's list: choices, groups, actions for many containers.

import { TITLES } from '../shared/container-words.js';
import { count } from '../shared/format.js';
import { pluralOf } from '../shared/language.js';
import { texts } from './texts.js';

export const CHOICES = {
  group: { none: texts.noGroups, room: texts.byRoom, source: texts.byHeatSource, state: texts.byState },
  sort: {
    worst: texts.worstFirst,
    name: texts.byName,
    warmest: texts.warmestFirst,
    coldest: texts.coldestFirst,
    check: texts.nextCheckFirst,
  },
  density: { auto: texts.asManyNeed, card: texts.cards, row: texts.rows, tile: texts.tiles },
};
export const STATES = { '': texts.allStates, attention: texts.needsALook, ...TITLES };
export const FIELDS = {
  group: texts.groupsField,
  sort: texts.orderField,
  density: texts.sizeField,
  room: texts.roomField,
  state: texts.stateField,
};

const NO_GROUP = { room: texts.noRoom, source: texts.noHeatSource };
const containers = (n) => count(n, texts.containerCount);
const alerts = (n) => count(n, texts.alertCount);

/** The heading of a group; empty without groups. */
export function groupTitle(by, { key, items, waiting }) {
  if (by === 'none') return '';
  const name = by === 'state' ? TITLES[key] : key || NO_GROUP[by];
  const need = waiting > 0 && by !== 'state' ? `, ${waiting} ${pluralOf(waiting, texts.needYou)}` : '';
  return `${name}: ${containers(items.length)}${need}`;
}

/** How many of the containers are shown; empty if all. @param held those that the page has asked for */
export function shownWords({ shown, held, matching, total }) {
  if (shown === 0 && total > 0) return texts.noContainerMatches;
  if (matching > held) return texts.shownWorstFirst(shown, containers(matching));
  return shown < total ? texts.shownOf(shown, containers(total)) : '';
}

export const alertsTitle = (n) => texts.needsAttention(alerts(n));

/** What can be done for many. `lead` gets the number of containers, `done` that of the changed things. */
export const ACTIONS = {
  acknowledge: {
    button: texts.acknowledge,
    title: texts.acknowledgeAlerts,
    lead: (n) => texts.allOpenAlertsOf(containers(n)),
    submit: texts.acknowledgeThem,
    done: (n) => texts.alertsAcknowledged(alerts(n)),
  },
  pause: {
    button: texts.pause,
    title: texts.pauseAlerts,
    lead: (n) => texts.openAlertsPaused(containers(n)),
    submit: texts.pauseThem,
    done: (n) => texts.alertsPaused(alerts(n)),
  },
  open: {
    button: texts.open,
    title: texts.openForACheck,
    lead: (n) => texts.openFromNow(containers(n)),
    submit: texts.recordTheOpening,
    done: (n) => texts.openingsRecorded(count(n, texts.openingCount)),
  },
  limits: {
    button: texts.limits,
    title: texts.changeLimits,
    lead: (n) => texts.limitsOf(containers(n)),
    submit: texts.changeThem,
    done: (n) => texts.limitsChanged(containers(n)),
  },
};
