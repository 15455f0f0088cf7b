// Imports files of other loggers: upload, preview, start, stop, continue.

import { api } from '../shared/api.js';
import { actionButton, byId, h, reconcile, setText, whileBusy } from '../shared/dom.js';
import { form, typedIn } from '../shared/form.js';
import { choiceFields, profileFields, setProfiles } from './import-fields.js';
import { canStart, choicesOf, progressWords, rowWords } from './import-words.js';
import { texts } from './texts.js';

const LOOK_AGAIN_MS = 1_000;
const MAX_BYTES = 2 ** 31;

let timer = null;

/** Shows the imports; looks again while one runs. */
export async function loadImports() {
  const [{ imports }, { profiles }] = await Promise.all([api.imports(), api.importProfiles()]);
  reconcile(
    byId('imports'),
    imports,
    ({ id }) => id,
    makeImport,
    (item, one) => {
      updateImport(item, one);
      setProfiles(item, profiles);
    },
  );
  clearTimeout(timer);
  if (imports.some(({ state }) => state === 'running'))
    timer = setTimeout(() => loadImports().catch(later), LOOK_AGAIN_MS);
}

function later() {
  timer = setTimeout(() => loadImports().catch(later), 5 * LOOK_AGAIN_MS);
}

byId('upload').addEventListener('submit', (event) => {
  event.preventDefault();
  whileBusy(event.target.querySelector('button'), byId('upload-problem'), async () => {
    const file = byId('file').files[0];
    if (!file) throw new Error(texts.chooseAFileFirst);
    if (file.size > MAX_BYTES) throw new Error(texts.theFileIsLargerThan);
    await api.uploadImport(file);
    byId('upload').reset();
    await loadImports();
  });
});

function makeImport(one) {
  const shown = h('div', { class: 'preview' });
  const output = h('div', { class: 'output' });
  const again = (work) => async () => {
    await work();
    await loadImports();
  };
  const choices = form({
    content: h(
      'details',
      {},
      h('summary', {}, texts.correctWhatIsGuessed),
      profileFields(output, () => choices, loadImports),
      h('div', { class: 'fields' }, choiceFields()),
    ),
    submit: texts.preview,
    plain: true,
    output,
    save: async (element) => showPreview(shown, await api.previewImport(one.id, choicesOf(typedIn(element)))),
    other: [
      actionButton(
        { class: 'main start' },
        texts.start,
        output,
        again(() => start(one.id, choices)),
      ),
      actionButton(
        { class: 'stop' },
        texts.stop,
        output,
        again(() => api.stopImport(one.id)),
      ),
      actionButton(
        { class: 'remove' },
        texts.remove,
        output,
        again(() => api.removeImport(one.id)),
      ),
    ],
  });
  const item = h(
    'li',
    { class: 'import' },
    h('h3', {}, one.name),
    h('p', { class: 'progress', role: 'status' }),
    h('p', { class: 'notes quiet' }),
    h('p', {}, h('a', { class: 'rejected', href: `/api/imports/${one.id}/rejected.csv` }, texts.rejectedRows)),
    choices,
    shown,
  );
  if (canStart(one.state)) {
    whileBusy(choices.querySelector('button[type=submit]'), output, async () =>
      showPreview(shown, await api.previewImport(one.id, {})),
    );
  }
  return item;
}

const start = (id, choices) => api.startImport(id, choicesOf(typedIn(choices)));

function updateImport(item, one) {
  setText(item.querySelector('.progress'), progressWords(one));
  setText(item.querySelector('.notes'), one.notes.join(' '));
  const busy = one.state === 'running';
  const begin = item.querySelector('.start');
  setText(begin, one.state === 'stopped' ? texts.continue : texts.start);
  begin.hidden = !canStart(one.state);
  item.querySelector('.stop').hidden = !busy;
  item.querySelector('.remove').hidden = busy;
  item.querySelector('button[type=submit]').hidden = !canStart(one.state);
  item.querySelector('.rejected').hidden = one.rejected === 0 || busy;
  item.querySelector('details').hidden = !canStart(one.state);
}

function showPreview(place, { guesses, rows, units }) {
  place.replaceChildren(
    h('h4', {}, texts.firstRows),
    h(
      'ul',
      {},
      rows.map((row) => h('li', {}, rowWords(row, units))),
    ),
    h('h4', {}, texts.guessed),
    h(
      'ul',
      {},
      guesses.map(({ what, value, reason }) => h('li', {}, `${what}: ${value} (${reason})`)),
    ),
  );
}
