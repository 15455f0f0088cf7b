// Lists the faults of the container's sensors in the stretch shown. A press leaves a faulty stretch out of all figures,
// or counts it again.

import { byId, setText } from '../shared/dom.js';
import { drawFaults } from '../shared/fault-list.js';
import { leftOutWords, summaryWords } from '../shared/fault-words.js';
import { texts } from './texts.js';

const FIRST = 6;
let showsAll = false;

/** @param decided called after a decision, since all figures change with it */
export function showFaults({ faults, readings }, decided) {
  const all = faults.faults;
  setText(byId('faults-summary'), [summaryWords(all), leftOutWords(readings.leftOut)].filter(Boolean).join(' '));
  const shown = showsAll ? all : all.slice(0, FIRST);
  drawFaults(byId('faults'), shown, decided);
  const more = byId('faults-more');
  more.hidden = shown.length === all.length;
  setText(more, texts.showAll(all.length));
  more.onclick = () => {
    showsAll = true;
    showFaults({ faults, readings }, decided);
  };
}
