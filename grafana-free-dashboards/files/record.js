// Takes the whole record over from a zip file, or one table of it from a CSV file: all of it, or nothing.

import { api } from '../shared/api.js';
import { byId, h, problemBox, whileBusy } from '../shared/dom.js';
import { tableNames, tableOf, takenWords, troubleByLine } from './record-words.js';
import { texts } from './texts.js';

const MOST_BYTES = 16 * 2 ** 20;
const MOST_BYTES_OF_A_TABLE = 2 ** 20;

/** Takes the chosen file over when its form is sent. */
export function takeChosen(event) {
  event.preventDefault();
  const output = byId('take-output');
  whileBusy(event.target.querySelector('button'), output, async () => {
    const [chosen] = byId('record-file').files;
    if (!chosen) throw new Error(texts.chooseAFileFirst);
    try {
      const taken = await take(chosen);
      output.replaceChildren(
        h('p', { class: 'done' }, texts.takenOver),
        h(
          'ul',
          {},
          taken.map((one) => h('li', {}, takenWords(one))),
        ),
      );
      event.target.reset();
    } catch (problem) {
      output.replaceChildren(problemBox(troubleByLine(problem)));
    }
  });
}

async function take(file) {
  if (file.name.toLowerCase().endsWith('.zip')) {
    if (file.size > MOST_BYTES) throw new Error(texts.theRecordIsTooLarge);
    return (await api.importRecord(file)).tables;
  }
  const table = tableOf(file.name);
  if (!table) throw new Error(texts.theNameMustTellTheTable(tableNames));
  if (file.size > MOST_BYTES_OF_A_TABLE) throw new Error(texts.theTableIsTooLarge);
  return [await api.importTable(table, await file.text())];
}
