// Notices told on this device while a page is open: a short sound, and a notification where the browser lets us.

const KEY = 'tepidarium.tellHere';
/** Two short rising tones: seconds after the start, and hertz. */
const TONES = [[0, 660], [0.22, 880]];
const TONE_SECONDS = 0.18;
const LOUDNESS = 0.25;

let on = remembered();
let sound = null;

function remembered() {
  try {
    return globalThis.localStorage?.getItem(KEY) === 'on';
  } catch {
    return false;
  }
}

export const tellsHere = () => on;

/** Must be called from a press: browsers allow sound and the question for permission only then. */
export async function setTellsHere(wanted) {
  on = wanted;
  try {
    globalThis.localStorage?.setItem(KEY, wanted ? 'on' : 'off');
  } catch { /* the choice then lasts as long as the page */ }
  if (!wanted) return;
  await wakeSound();
  beep();
  if (canNotify() && Notification.permission === 'default') await Notification.requestPermission();
}

/** Notifications need https or this very machine. */
const canNotify = () => globalThis.isSecureContext === true && 'Notification' in globalThis;

export const permission = () => (canNotify() ? Notification.permission : 'impossible');

/** A page opened anew may make no sound before the first press on it. */
export function wakeOnFirstPress() {
  document.addEventListener('pointerdown', () => on && wakeSound(), { once: true });
}

async function wakeSound() {
  try {
    sound ??= new AudioContext();
    await sound.resume();
  } catch { /* no sound on this device: the notification remains */ }
}

function beep() {
  if (sound?.state !== 'running') return;
  for (const [after, hertz] of TONES) {
    const at = sound.currentTime + after;
    const tone = sound.createOscillator();
    const volume = sound.createGain();
    tone.frequency.value = hertz;
    volume.gain.setValueAtTime(LOUDNESS, at);
    volume.gain.exponentialRampToValueAtTime(0.001, at + TONE_SECONDS);
    tone.connect(volume).connect(sound.destination);
    tone.start(at);
    tone.stop(at + TONE_SECONDS);
  }
}

/** What came back to normal wakes nobody: it is shown without a sound. */
export const isLoud = (notice) => notice.kind !== 'returned';

export function tell(notice) {
  if (!on) return;
  if (isLoud(notice)) beep();
  if (permission() !== 'granted') return;
  try {
    const shown = new Notification(notice.subject, { body: notice.text, tag: `tepidarium-${notice.id}`, icon: '/mark.svg', silent: !isLoud(notice) });
    shown.onclick = () => globalThis.focus();
  } catch { /* some phones allow this only to installed pages: the sound remains */ }
}
