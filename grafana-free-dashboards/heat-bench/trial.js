// The form that tries a place, and its result.

import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';
import { byId, h, problemBox, setOptions } from '../shared/dom.js';
import { trialSentence } from './sentences.js';
import { trialRows, wattsOf } from './trial-words.js';
import { texts } from './texts.js';

const DAY_MS = 86_400_000;
const TRIAL_SPANS = [
  { value: '1', text: texts.n24Hours },
  { value: '2', text: texts.n48Hours },
  { value: '4', text: texts.n4Days },
  { value: '7', text: texts.n7Days },
];
const USUAL_SPAN = '2';

let trial = null;

/** Fills the form. The chosen span stays after the first time. */
export function offerTrial(containers) {
  const first = byId('trial-span').options.length === 0;
  setOptions(
    byId('trial-container'),
    containers.map(({ id, name }) => ({ value: id, text: name })),
  );
  setOptions(byId('trial-span'), TRIAL_SPANS);
  if (first) byId('trial-span').value = USUAL_SPAN;
  byId('trial-part').hidden = containers.length === 0;
}

byId('trial-form').addEventListener('submit', (event) => {
  event.preventDefault();
  tryPlace();
});

async function tryPlace() {
  const watts = wattsOf(byId('trial-watts').value);
  const place = byId('trial');
  if (watts === undefined) {
    place.replaceChildren(problemBox({ message: texts.thePowerMustBeA }));
    return;
  }
  place.setAttribute('aria-busy', 'true');
  try {
    trial = await api.trial(byId('trial-container').value, {
      from: now() - Number(byId('trial-span').value) * DAY_MS,
      watts,
    });
    drawTrial();
  } catch (problem) {
    trial = null;
    place.replaceChildren(problemBox(problem));
  } finally {
    place.removeAttribute('aria-busy');
  }
}

/** Shows the last trial; nothing before the first. */
export function drawTrial() {
  if (!trial) return;
  byId('trial').replaceChildren(
    h('p', { class: 'bench-verdict', data: { outcome: trial.outcome } }, trialSentence(trial)),
    h(
      'dl',
      { class: 'facts' },
      trialRows(trial).map(([title, text]) => h('div', {}, h('dt', {}, title), h('dd', {}, text))),
    ),
  );
}
