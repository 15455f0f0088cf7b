// Tells of notices on this device while a page is open: a short sound, and a notification if the browser allows it.

import { api } from './api.js';
import { missedNotices, newestOf, tellOnce } from './tell-once.js';

const KEY = 'tepidarium.tellHere';
/** Two short rising tones: seconds after the start, and hertz. */
const TONES = [
  [0, 660],
  [0.22, 880],
];
const TONE_SECONDS = 0.18;
const LOUDNESS = 0.25;
/** Events that browsers accept as a press. */
const PRESSES = ['pointerup', 'keydown'];

/** The choice if the browser forbids storage; it lasts as long as the page. */
let unremembered = false;
let sound = null;
let soundChanged = () => {};
let newest = null;

/** Asked anew each time: the switch may be pressed on another page. */
export function tellsHere() {
  try {
    return globalThis.localStorage.getItem(KEY) === 'on';
  } catch {
    return unremembered;
  }
}

/** Must be called from a press: browsers allow sound and the question for permission only then. */
export async function setTellsHere(wanted) {
  unremembered = wanted;
  try {
    globalThis.localStorage.setItem(KEY, wanted ? 'on' : 'off');
  } catch {
    /* the choice then lasts as long as the page */
  }
  soundChanged();
  if (!wanted) return;
  await wakeSound();
  beep();
  if (canNotify() && Notification.permission === 'default') await Notification.requestPermission();
}

/** Notifications need https or this very machine. */
const canNotify = () => globalThis.isSecureContext === true && 'Notification' in globalThis;

export const permission = () => (canNotify() ? Notification.permission : 'impossible');

/**
 * A page opened anew may make no sound before the first press on it, unless the browser trusts it already.
 * @param needsPress called with whether a press is missing, at each change
 */
export function wakeWithPage(needsPress) {
  soundChanged = () => needsPress(tellsHere() && sound !== null && sound.state !== 'running');
  for (const press of PRESSES)
    document.addEventListener(press, () => tellsHere() && sound?.state !== 'running' && wakeSound());
  globalThis.addEventListener('storage', ({ key }) => key === KEY && (tellsHere() ? wakeSound() : soundChanged()));
  if (tellsHere()) wakeSound();
}

async function wakeSound() {
  try {
    if (!sound) {
      sound = new AudioContext();
      sound.addEventListener('statechange', () => soundChanged());
    }
    soundChanged();
    await sound.resume();
  } catch {
    /* no sound on this device: the notification remains */
  }
  soundChanged();
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

/** Notices of a return are silent. */
export const isLoud = (notice) => notice.kind !== 'returned';

function tell(notice) {
  if (isLoud(notice)) beep();
  if (permission() !== 'granted') return;
  try {
    const shown = new Notification(notice.subject, {
      body: notice.text,
      tag: `tepidarium-${notice.id}`,
      icon: '/shared/mark.svg',
      silent: !isLoud(notice),
    });
    shown.onclick = () => globalThis.focus();
  } catch {
    /* some phones allow this only to installed pages: the sound remains */
  }
}

/** A page that can play sound comes before a visible page. */
const eagerness = () => (sound?.state === 'running' ? 2 : 0) + (document.visibilityState === 'visible' ? 1 : 0);

const joined = 'document' in globalThis && 'BroadcastChannel' in globalThis ? new BroadcastChannel(KEY) : null;
const once = tellOnce({ channel: joined, eagerness, tell });

export function takeNotice(notice) {
  newest = Math.max(newest ?? 0, notice.id);
  if (tellsHere()) once(notice);
}

/** Call after each opening of the stream: tells of notices sent while it was closed. */
export async function catchUp() {
  if (!tellsHere()) return;
  let sent;
  try {
    sent = await api.notices();
  } catch {
    return; // asked again when the stream opens the next time
  }
  const missed = newest === null ? [] : missedNotices(sent, newest);
  newest = Math.max(newest ?? 0, newestOf(sent));
  missed.forEach(takeNotice);
}
