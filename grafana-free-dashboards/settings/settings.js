// Runs the page Settings: forms for notices, and the list of all settings.

import { api } from '../shared/api.js';
import { byId, setOptions, setText } from '../shared/dom.js';
import { count } from '../shared/format.js';
import { startPage, untilItWorks } from '../shared/page.js';
import { showProblem } from '../shared/trouble.js';
import { drawList } from './list.js';
import { inReadersLanguage } from './meanings.js';
import { drawSection } from './notices.js';
import { texts } from './texts.js';
import { wanted } from './words.js';

let settings = [];

startPage({ current: null, reload: () => {}, redraw: () => {} });
untilItWorks(load, showTrouble).catch(showTrouble);
setOptions(byId('show'), [
  { value: 'all', text: texts.showAll },
  { value: 'set', text: texts.showSet },
  { value: 'changeable', text: texts.showChangeable },
  { value: 'waiting', text: texts.showWaiting },
]);
byId('choice').addEventListener('submit', (event) => event.preventDefault());
for (const id of ['search', 'show']) byId(id).addEventListener('input', draw);

async function load() {
  const { role } = await api.session();
  if (role === 'own') {
    const answer = await api.settings();
    take(answer);
    for (const section of ['email', 'webhook']) drawSection(byId(section), settings, `notices.${section}.`, take);
  }
  byId('content').hidden = role !== 'own';
  byId('own-only').hidden = role === 'own';
  byId('loading')?.remove();
}

function take(answer) {
  settings = inReadersLanguage(answer.settings);
  setText(byId('saved-in'), texts.savedIn(answer.file));
  draw();
}

function draw() {
  const waiting = settings.filter((one) => one.waiting);
  const names = waiting.map(({ name }) => name).join(', ');
  setText(byId('waiting'), waiting.length > 0 ? texts.waiting(count(waiting.length, texts.settingCount), names) : '');
  const shown = wanted(settings, { show: byId('show').value, search: byId('search').value });
  byId('none-found').hidden = shown.length > 0;
  drawList(byId('all'), shown, take);
}

function showTrouble(problem) {
  showProblem(byId('loading') ?? byId('trouble'), problem);
}
