// Writes an entry down and tells the person what became of it; withdraws the last one.

import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';
import { byId, h, problemBox } from '../shared/dom.js';
import { confirmWithdrawal } from './entries.js';
import { sentence } from './heat-words.js';
import { keepPicture } from './photo.js';
import { texts } from './texts.js';

const PATIENCE_MS = 2500;

export function say(words, ...more) {
  byId('said').replaceChildren(h('p', { class: 'done' }, h('span', {}, words), more));
}

/**
 * @param unsent the queue of entries
 * @param names the name of a container, by its id
 * @param refresh called with the sowing whose record has changed
 */
export function makeWriting({ unsent, names, refresh }) {
  /**
   * Stores an entry in the browser and sends it. Returns the reason if the service refuses it, else null. A picture is
   * too large to store: it is sent now or not at all.
   */
  async function write(entry, picture = null) {
    const writing = unsent.add(entry);
    const result = await Promise.race([
      writing,
      new Promise((wake) => setTimeout(wake, PATIENCE_MS, { state: 'waiting' })),
    ]);
    if (result.state === 'refused') {
      unsent.discard(result.key);
      return result.message;
    }
    const written = result.state === 'sent';
    const lost =
      picture &&
      (written && result.answer ? await keepPicture(result.answer.entry.id, picture) : texts.theEntryHasNotArrived);
    const pictureWords = lost ? texts.thePictureWasNotKept(sentence(lost)) : '';
    if (!written) say(texts.keptOnThisDeviceIt(pictureWords));
    else say(texts.writtenDown(entry.what, pictureWords), entry.kind !== 'withdrawal' && undoButton(result.answer));
    if (picture && !lost) refresh(result.answer.entry.sowing);
    return null;
  }

  const writeNow = (one) => write({ writtenAt: new Date(now()).toISOString(), ...one });

  function undoButton(answer) {
    const sowing = answer?.sowing;
    return sowing && h('button', { type: 'button', on: { click: () => undoLast(sowing) } }, texts.undo);
  }

  async function undoLast(sowing) {
    try {
      const entries = await api.entries(sowing.id);
      const last = entries.find((entry) => entry.id === sowing.lastEntry);
      if (last) confirmWithdrawal(last, { names, write: writeNow });
    } catch (problem) {
      byId('said').replaceChildren(problemBox(problem));
    }
  }

  return { write, writeNow, undoLast };
}
