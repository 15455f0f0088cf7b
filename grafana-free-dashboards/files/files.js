// Runs the page Files: saves readings as a file, and imports files of other loggers.

import { api } from '../shared/api.js';
import { byId, setOptions } from '../shared/dom.js';
import { startPage, untilItWorks } from '../shared/page.js';
import { browserZone } from '../shared/time-format.js';
import { showProblem } from '../shared/trouble.js';
import { loadImports } from './import.js';
import { exportAddress, exportChoices } from './export-address.js';

startPage({ current: '/files.html', reload: () => load().catch(showTrouble), redraw: () => {} });
untilItWorks(load, showTrouble).catch(showTrouble);

async function load() {
  const [containers, sensors] = await Promise.all([api.containers(), api.sensors()]);
  setOptions(byId('what'), exportChoices(containers, sensors));
  byId('loading')?.remove();
  await loadImports();
}

byId('export').addEventListener('submit', (event) => {
  event.preventDefault();
  const problem = byId('export-problem');
  problem.replaceChildren();
  try {
    const choice = {
      what: byId('what').value,
      from: byId('from').value,
      to: byId('to').value,
      format: byId('format').value,
      calibrated: byId('values').value,
    };
    location.assign(exportAddress(choice, browserZone()));
  } catch (error) {
    showProblem(problem, error);
  }
});

function showTrouble(problem) {
  const place = byId('loading');
  if (place) showProblem(place, problem);
}
