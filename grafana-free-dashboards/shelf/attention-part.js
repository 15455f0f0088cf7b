// The part of the shelf on top: alerts that need a person.

import { isOpen, isShelved } from '../shared/alert-words.js';
import { showAlerts } from '../shared/attention.js';
import { now } from '../shared/clock.js';
import { byId, setText } from '../shared/dom.js';
import { isLive } from '../shared/page.js';
import { texts } from './texts.js';
import { alertsTitle } from './words.js';

/** Beside more containers than this, the alerts are folded: the containers tell them too, the worst first. */
const FEW = 12;

/** @param changed called with an alert that the person has handled */
export function drawAttention({ containers, alerts, changed }) {
  const at = now();
  const open = [...alerts.values()].filter(isOpen);
  const waiting = open.filter((alert) => !isShelved(alert, at)).length;
  const part = byId('attention-part');
  part.hidden = containers.size === 0;
  part.classList.toggle('calm', waiting === 0 && isLive());
  setText(byId('attention-title'), waiting > 0 ? alertsTitle(waiting) : notWaitingTitle(open.length));
  const list = byId('attention-fold');
  fold(list, containers.size > FEW && waiting > 0);
  const show = () =>
    showAlerts({ list: byId('attention'), shelvedPart: byId('shelved-part'), alerts: open, containers, changed });
  list.ontoggle = () => list.open && show();
  if (list.open) show();
}

/** Folds the list once; then the person decides. A folded list is not drawn. */
function fold(list, many) {
  if (list.classList.contains('many') === many) return;
  list.classList.toggle('many', many);
  list.open = !many;
  setText(list.querySelector('summary'), texts.showThem);
}

function notWaitingTitle(paused) {
  if (!isLive()) return texts.noAlertsWhenLastHeard;
  return paused > 0 ? texts.noAlertExceptPaused : texts.noAlerts;
}
