// The list of sensor faults, with a button for each that excludes it from the figures or includes it. Pages share it.

import { api } from './api.js';
import { now } from './clock.js';
import { actionButton, h, reconcile } from './dom.js';
import { reasonWords } from './fault-reasons.js';
import { nextDecisions, quantityOf, stateWords, titleOf, whenWords } from './fault-words.js';
import { inSentence } from './text.js';
import { texts } from './texts.js';

/** @param decided called after a decision, since all figures change with it */
export function drawFaults(place, faults, decided) {
  reconcile(
    place,
    faults,
    (one) =>
      [
        one.sensor,
        one.quantity,
        one.kind,
        one.from,
        one.to,
        one.state,
        one.otherState,
        one.ongoing,
        reasonWords(one),
      ].join('/'),
    (one) => makeFault(one, decided),
  );
}

function makeFault(fault, decided) {
  const output = h('div');
  const decide = async ({ sensor, excluded }) => {
    const { quantity, kind, from, to } = fault;
    await api.decideFault(sensor, { quantity, kind, from, to, excluded });
    await decided();
  };
  return h(
    'li',
    { data: { fault: fault.kind } },
    h(
      'div',
      { class: 'with-button' },
      h(
        'p',
        {},
        h('strong', {}, titleOf(fault.kind)),
        ` · ${fault.sensor}, ${inSentence(quantityOf(fault.quantity))} · ${whenWords(fault, now())} · `,
        h('span', { class: `fault-state is-${fault.state}` }, stateWords(fault)),
        decidedWords(fault),
      ),
      ...nextDecisions(fault).map((next) => actionButton({ class: 'plain' }, next.title, output, () => decide(next))),
    ),
    h('p', { class: 'quiet' }, reasonWords(fault)),
    output,
  );
}

const decidedWords = ({ decided }) => (decided ? texts.decidedBy(decided.by) : '');
