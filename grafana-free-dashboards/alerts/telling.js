// Settings of this device: sounds and notifications on or off, and the name of the person for the record.

import { byId, setText, whileBusy } from '../shared/dom.js';
import { permission, setTellsHere, tellsHere } from '../shared/tell-here.js';
import { setWho, who } from '../shared/who.js';
import { tellingWords } from './notice-words.js';
import { texts } from './texts.js';

export function makeTelling() {
  const button = byId('tell');
  const show = () => {
    setText(button, tellsHere() ? texts.keepQuietOnThisDevice : texts.tellMeOnThisDevice);
    setText(byId('telling'), tellingWords(tellsHere(), permission()));
  };
  button.addEventListener('click', () =>
    whileBusy(button, null, async () => {
      const wanted = setTellsHere(!tellsHere());
      show();
      await wanted;
      show();
    }),
  );
  show();
}

export function makeWho() {
  byId('who').value = who() ?? '';
  byId('who').addEventListener('change', () => setWho(byId('who').value));
}
