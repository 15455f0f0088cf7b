// Lists the faults of the container's sensors in the stretch shown. A press leaves a faulty stretch out of all figures,
// or counts it again.

import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';
import { actionButton, byId, h, reconcile, setText } from '../shared/dom.js';
import {
  leftOutWords,
  nextDecision,
  quantityOf,
  stateWords,
  summaryWords,
  titleOf,
  whenWords,
} from '../shared/fault-words.js';

const FIRST = 6;
let showsAll = false;

/** @param decided called after a decision, since all figures change with it */
export function showFaults({ faults, readings }, decided) {
  const all = faults.faults;
  setText(byId('faults-summary'), [summaryWords(all), leftOutWords(readings.leftOut)].filter(Boolean).join(' '));
  const shown = showsAll ? all : all.slice(0, FIRST);
  reconcile(
    byId('faults'),
    shown,
    (one) => [one.sensor, one.quantity, one.kind, one.from, one.to, one.state, one.ongoing].join('/'),
    (one) => makeFault(one, decided),
  );
  const more = byId('faults-more');
  more.hidden = shown.length === all.length;
  setText(more, `Show all ${all.length}`);
  more.onclick = () => {
    showsAll = true;
    showFaults({ faults, readings }, decided);
  };
}

function makeFault(fault, decided) {
  const output = h('div');
  const next = nextDecision(fault);
  const decide = async () => {
    const { quantity, kind, from, to } = fault;
    await api.decideFault(fault.sensor, { quantity, kind, from, to, excluded: next.excluded });
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
        ` · ${fault.sensor}, ${quantityOf(fault.quantity).toLowerCase()} · ${whenWords(fault, now())} · `,
        h('span', { class: `fault-state is-${fault.state}` }, stateWords(fault)),
        decidedWords(fault),
      ),
      next && actionButton({ class: 'plain' }, next.title, output, decide),
    ),
    h('p', { class: 'quiet' }, fault.reason),
    output,
  );
}

const decidedWords = ({ decided }) => (decided ? `, decided by ${decided.by}` : '');
