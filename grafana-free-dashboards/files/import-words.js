// The words of imports. Pure.

const number = (value) => new Intl.NumberFormat('en').format(value);
const amount = (value, noun) => `${number(value)} ${noun}${value === 1 ? '' : 's'}`;

const STATES = { ready: 'Not started', running: 'Running', stopped: 'Stopped', done: 'Done', failed: 'Failed' };

/** Such as "Running, 40 %: 12,000 readings stored, 3 there already, 1 row rejected". */
export function progressWords({ state, percent, stored, repeated, rejected, problem }) {
  if (state === 'ready') return `${STATES.ready}.`;
  const share = state === 'done' ? '' : `, ${percent} %`;
  const parts = [`${amount(stored, 'reading')} stored`];
  if (repeated > 0) parts.push(`${number(repeated)} there already`);
  if (rejected > 0) parts.push(`${amount(rejected, 'row')} rejected`);
  return `${STATES[state]}${share}: ${parts.join(', ')}.${problem ? ` ${problem}.` : ''}`;
}

/** A row of the preview: its line, then the reading or the reason for its rejection. */
export function rowWords({ line, sensor, at, values, rejected }) {
  if (rejected !== null) return `Line ${line} is rejected: ${rejected}`;
  const shown = Object.entries(values).map(([quantity, value]) => `${quantity} ${value}`);
  return `Line ${line}: ${sensor}, ${at}, ${shown.join(', ')}`;
}

/** What a person has typed, as the service takes it: empty fields are guessed. */
export const choicesOf = (typed) => Object.fromEntries(Object.entries(typed).filter(([, value]) => value !== ''));
