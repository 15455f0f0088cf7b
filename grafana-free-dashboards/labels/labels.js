// Prints labels of containers. The containers chosen at first stand in the address.

import { api } from '../shared/api.js';
import { byId, h, setText } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { startPage, untilItWorks } from '../shared/page.js';
import { showNext, withoutContainers } from '../shared/next-step.js';
import { pageZone } from '../shared/zone.js';
import { showProblem } from '../shared/trouble.js';
import { firstPlace, loopbackWords, sheetsOf, sowingLines } from './sheets.js';
import { texts } from './texts.js';

const wanted = new URLSearchParams(location.search).getAll('container');
const boxes = new Map();
let labels = [];

startPage({ current: null, reload: () => {}, redraw: () => {} });
untilItWorks(load, showTrouble).catch(showTrouble);

byId('choice').addEventListener('change', draw);
byId('first').addEventListener('input', draw);
byId('every').addEventListener('click', () => chooseAll(true));
byId('none').addEventListener('click', () => chooseAll(false));
byId('choice').addEventListener('submit', async (event) => {
  event.preventDefault();
  await Promise.all([...byId('sheets').querySelectorAll('img')].map((image) => image.decode().catch(() => {})));
  print();
});

async function load() {
  const answer = await api.labels();
  labels = answer.labels;
  byId('loading').remove();
  byId('loopback').hidden = !answer.loopback;
  if (answer.loopback) setText(byId('loopback'), loopbackWords(answer.address));
  byId('choice').hidden = false;
  byId('containers').replaceChildren(...labels.map(box));
  draw();
}

/** Without a choice in the address, containers with seeds are chosen. */
function box({ container, name, sowings }) {
  const checked = wanted.length > 0 ? wanted.includes(container) : sowings.length > 0;
  const input = h('input', { type: 'checkbox', name: 'container', value: container, checked });
  boxes.set(container, input);
  return h('label', { class: 'check-box' }, input, name);
}

function chooseAll(checked) {
  for (const input of boxes.values()) input.checked = checked;
  draw();
}

function draw() {
  const chosen = labels.filter(({ container }) => boxes.get(container).checked);
  const sheets = sheetsOf(chosen, firstPlace(byId('first').value));
  const count = texts.on(f.count(chosen.length, texts.labelCount), f.count(sheets.length, texts.sheetCount));
  showNext(byId('count'), ...(labels.length === 0 ? withoutContainers() : [count]));
  byId('choice').querySelector('[type=submit]').disabled = chosen.length === 0;
  byId('sheets').replaceChildren(...sheets.map((places) => h('div', { class: 'sheet' }, places.map(drawLabel))));
}

function drawLabel(label) {
  if (!label) return h('div', { class: 'used' });
  const lines = sowingLines(label.sowings, pageZone);
  return h(
    'div',
    { class: 'label', data: { container: label.container } },
    h(
      'div',
      { class: 'words' },
      h('p', { class: 'name' }, label.name),
      lines.flatMap((parts) => parts.map((line) => h('p', {}, line))),
    ),
    h(
      'div',
      { class: 'code' },
      h('img', {
        src: `/api/containers/${encodeURIComponent(label.container)}/label.svg`,
        alt: texts.qrCodeCheck(label.name),
      }),
      h('p', {}, texts.scanToCheck),
    ),
  );
}

function showTrouble(problem) {
  showProblem(byId('loading') ?? byId('count'), problem);
}
