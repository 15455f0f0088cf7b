// The verdict on the health of the service in the foot of each page.

import { api } from './api.js';
import { byId, setText } from './dom.js';
import { texts } from './texts.js';

const HEALTH_EVERY_MS = 30_000;

/** Shows the health now and every 30 s. */
export function keepHealth() {
  setText(byId('service-health'), texts.askingTheServiceHowIt);
  showHealth();
  setInterval(showHealth, HEALTH_EVERY_MS);
}

export async function showHealth() {
  const place = byId('service-health');
  try {
    const health = await api.health();
    place.className = health.status === 'up' ? '' : 'down';
    setText(place, healthVerdict(health));
  } catch (problem) {
    setText(place, problem.message);
  }
}

export function healthVerdict({ status, parts }) {
  if (status === 'up') return texts.theServiceWorksWithoutProblems;
  return Object.values(parts ?? {}).some((part) => part.status === 'down')
    ? texts.aPartOfTheService
    : texts.theServiceIsStarting;
}
