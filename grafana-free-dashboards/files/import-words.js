// The words of imports. Pure.

import { count, number } from '../shared/format.js';
import { quantityOf } from '../shared/fault-words.js';
import { inSentence } from '../shared/text.js';
import { stamp } from '../shared/time-format.js';
import { fieldNumber } from '../shared/typed.js';
import { texts } from './texts.js';

/** Told from here, a time has its year. */
const LONG_AGO = -1e11;

const STATES = {
  ready: texts.notStarted,
  running: texts.running,
  stopped: texts.stopped,
  done: texts.done,
  failed: texts.failed,
};

/** Such as "Running, 40 %: 12 000 readings stored, 3 there already, 1 row rejected". */
export function progressWords({ state, percent, stored, repeated, rejected, problem }) {
  if (state === 'ready') return `${STATES.ready}.`;
  const share = state === 'done' ? '' : `, ${percent} %`;
  const parts = [texts.stored(count(stored, texts.readingCount))];
  if (repeated > 0) parts.push(texts.thereAlready(number(repeated)));
  if (rejected > 0) parts.push(texts.rejected(count(rejected, texts.rowCount)));
  return `${STATES[state]}${share}: ${parts.join(', ')}.${problem ? ` ${problem}.` : ''}`;
}

/** Whether an import can start or continue. Otherwise it runs or is done, and needs no preview. */
export const canStart = (state) => state !== 'running' && state !== 'done';

/**
 * A row of the preview: its line, then the reading or the reason for its rejection.
 * @param units the stored unit of each quantity
 */
export function rowWords({ line, sensor, at, values, rejected }, units) {
  if (rejected !== null) return texts.lineIsRejected(line, rejected);
  const shown = Object.entries(values).map(
    ([key, value]) => `${inSentence(quantityOf(key))} ${fieldNumber(value)} ${units[key]}`,
  );
  return texts.line(line, sensor, stamp(at, LONG_AGO), shown.join(', '));
}

/** What a person has typed, as the service takes it: empty fields are guessed. */
export function choicesOf(typed) {
  const choices = Object.fromEntries(Object.entries(typed).filter(([, value]) => value.trim() !== ''));
  if (choices.headerLine) choices.headerLine = Number(choices.headerLine);
  if (choices.columns) choices.columns = columnsOf(choices.columns);
  return choices;
}

/** Meanings of columns, one a line, such as "2=temperature:F". */
function columnsOf(text) {
  const lines = text.split('\n').filter((line) => line.trim() !== '');
  return Object.fromEntries(
    lines.map((line) => {
      const sign = line.indexOf('=');
      if (sign < 1) throw new Error(texts.columnsIsNotAColumn(line.trim()));
      return [line.slice(0, sign).trim(), line.slice(sign + 1).trim()];
    }),
  );
}

/** The choices of a profile as the texts of the fields; the opposite of choicesOf. */
export function typedOf({ columns, ...choices }) {
  const lines = Object.entries(columns ?? {}).map(([column, meaning]) => `${column}=${meaning}`);
  const fields = Object.entries(choices).map(([name, value]) => [name, value === null ? '' : String(value)]);
  return { ...Object.fromEntries(fields), columns: lines.join('\n') };
}
