// Runs the page Files: saves readings as a file, and imports files of other loggers.

import { api } from '../shared/api.js';
import { byId, h, setOptions, whileBusy } from '../shared/dom.js';
import { startPage, untilItWorks } from '../shared/page.js';
import { showProblem } from '../shared/trouble.js';
import { loadImports } from './import.js';
import { takeChosen } from './record.js';
import { exportChoices, exportQuery } from './export-address.js';

startPage({ current: '/files.html', reload: () => load().catch(showTrouble), redraw: () => {} });
untilItWorks(load, showTrouble).catch(showTrouble);

async function load() {
  const [containers, sensors] = await Promise.all([api.containers(), api.sensors()]);
  setOptions(byId('what'), exportChoices(containers, sensors));
  byId('loading')?.remove();
  await loadImports();
}

byId('take').addEventListener('submit', takeChosen);

byId('export').addEventListener('submit', (event) => {
  event.preventDefault();
  whileBusy(event.target.querySelector('button'), byId('export-problem'), async () => {
    const choice = {
      what: byId('what').value,
      from: byId('from').value,
      to: byId('to').value,
      format: byId('format').value,
      calibrated: byId('values').value,
    };
    const query = exportQuery(choice);
    await api.checkExport(query);
    h('a', { href: `/api/export/readings?${query}`, download: '' }).click();
  });
});

function showTrouble(problem) {
  const place = byId('loading');
  if (place) showProblem(place, problem);
}
