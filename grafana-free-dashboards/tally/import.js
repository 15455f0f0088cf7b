// Imports a CSV table of the germination record: all rows, or none and the problems by line.

import { api } from '../shared/api.js';
import { h, problemBox } from '../shared/dom.js';
import { field, form } from '../shared/form.js';
import { count, number } from '../shared/format.js';
import { texts } from './texts.js';

export const TABLES = { species: texts.species, lots: texts.seedLots, entries: texts.entries };
const MOST_BYTES = 1_000_000;

/** @param done called after an import */
export function makeImport(host, done) {
  const output = h('div', { id: 'import-output', role: 'status' });
  const pick = h(
    'select',
    { id: 'import-table' },
    Object.entries(TABLES).map(([value, title]) => h('option', { value }, title)),
  );
  const file = h('input', { type: 'file', id: 'import-file', accept: '.csv,text/csv', on: { change: () => guess() } });
  const guess = () => {
    const table = tableOf(file.files[0]?.name ?? '');
    if (table) pick.value = table;
  };
  host.append(
    h(
      'details',
      {},
      h('summary', {}, texts.takeARecordOverFrom),
      form({
        id: 'import-form',
        content: [
          h('p', { class: 'help' }, texts.importSpeciesFirstThenSeed),
          h('div', { class: 'fields two' }, field(texts.file, file), field(texts.itHolds, pick)),
        ],
        submit: texts.takeItOver,
        output,
        save: take,
      }),
    ),
  );

  async function take() {
    const [chosen] = file.files;
    if (!chosen) throw new Error(texts.chooseAFileFirst);
    if (chosen.size > MOST_BYTES) throw new Error(texts.theFileIsLargerThan);
    try {
      const result = await api.importTable(pick.value, await chosen.text());
      output.replaceChildren(h('p', { class: 'done' }, takenWords(TABLES[pick.value], result)));
      file.value = '';
      done();
    } catch (problem) {
      output.replaceChildren(problemBox(troubleByLine(problem)));
    }
  }
}

/** Which table a file holds, by the name under which it is offered here. */
export const tableOf = (name) => Object.keys(TABLES).find((table) => name.toLowerCase().startsWith(table)) ?? null;

export function takenWords(title, { rows, added }) {
  if (rows === 0) return texts.theFileHoldsNoRow(title);
  return texts.read(title, count(rows, texts.rowCount), added === 0 ? texts.nothingNew : texts.newWord(number(added)));
}

/** Splits the message of the service into one problem per line. */
export function troubleByLine({ message, problems = [] }) {
  const parts = message.split(/(?:: |; )(?=line \d+: |and \d+ more)/);
  return parts.length < 2
    ? { message, problems }
    : { message: `${parts[0][0].toUpperCase()}${parts[0].slice(1)}:`, problems: parts.slice(1) };
}
