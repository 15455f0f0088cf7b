// The health of the service in the foot of each page: verdict, parts, counts of readings.

import { api } from './api.js';
import { byId, h, reconcile, setText } from './dom.js';
import { count, number } from './format.js';

const HEALTH_EVERY_MS = 30_000;

/** Shows the health now and every 30 s. */
export function keepHealth() {
  setText(byId('service-health'), 'Asking the service how it is …');
  showHealth();
  setInterval(showHealth, HEALTH_EVERY_MS);
}

export async function showHealth() {
  let health;
  try {
    health = await api.health();
  } catch (problem) {
    setText(byId('service-health'), problem.message);
    byId('service-parts').replaceChildren();
    return;
  }
  const parts = Object.entries(health.parts ?? {});
  // Without a login, the service tells its state alone.
  const version = health.version ? ` Version ${health.version}.` : '';
  setText(byId('service-health'), `${healthVerdict(health.status, parts)}${version}`);
  reconcile(
    byId('service-parts'),
    parts,
    ([name]) => name,
    () => h('li', {}),
    (item, [name, part]) => {
      item.className = part.status === 'up' ? 'up' : 'down';
      setText(item, `${name}: ${part.status}${part.detail ? `, ${part.detail}` : ''}`);
    },
  );
  if (health.counts) showCounts(health.counts);
}

function healthVerdict(status, parts) {
  if (status === 'up') return 'The service works without problems.';
  return parts.some(([, part]) => part.status === 'down')
    ? 'A part of the service does not work.'
    : 'The service is starting.';
}

function showCounts(counts) {
  byId('service-counts').replaceChildren(
    `Readings received ${number(counts.received)}, stored ${number(counts.stored)}, repeated ${number(counts.repeated)}, waiting ${number(counts.waiting)}. `,
    h('a', { href: '/rejects.html' }, `${count(counts.rejected ?? 0, 'message')} could not be read`),
    '.',
  );
}
