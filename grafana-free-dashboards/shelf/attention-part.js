// The part of the shelf on top: alerts that need a person.

import { showAlerts } from '../shared/attention.js';
import { byId, setText } from '../shared/dom.js';
import { isLive } from '../shared/page.js';

/** @param changed called with an alert that the person has handled */
export function drawAttention({ containers, alerts, changed }) {
  const shown = showAlerts({
    list: byId('attention'),
    shelvedPart: byId('shelved-part'),
    alerts: [...alerts.values()],
    containers,
    changed,
  });
  byId('attention-part').hidden = containers.size === 0;
  const nothing = byId('attention').children.length === 0;
  byId('attention-part').classList.toggle('calm', nothing && isLive());
  setText(
    byId('attention-title'),
    !nothing
      ? 'Needs attention'
      : !isLive()
        ? 'No alerts when last heard'
        : shown > 0
          ? 'No alert except the paused ones'
          : 'No alerts',
  );
}
