// Texts of the page People.

import { count } from '../shared/format.js';
import { moment } from '../shared/time-format.js';

/** The roles with what they allow. */
export const ROLES = [
  { value: 'look', text: 'Look: sees everything' },
  { value: 'tend', text: 'Tend: also records work' },
  { value: 'own', text: 'Own: everything' },
];

const BROWSERS = [
  [/Edg\//, 'Edge'],
  [/Firefox\//, 'Firefox'],
  [/Chrome\//, 'Chrome'],
  [/Safari\//, 'Safari'],
];
const SYSTEMS = [
  [/iPhone|iPad/, 'iOS'],
  [/Android/, 'Android'],
  [/Windows/, 'Windows'],
  [/Mac OS X/, 'macOS'],
  [/Linux/, 'Linux'],
];

const first = (list, text) => list.find(([pattern]) => pattern.test(text))?.[1];

/** Browser and system in two words, as far as the browser told them. */
export function deviceWords(device) {
  const words = [first(BROWSERS, device), first(SYSTEMS, device)].filter(Boolean);
  return words.length > 0 ? words.join(', ') : 'Unknown device';
}

export function sessionWords(session, now) {
  const end = session.yearLong ? 'until' : 'if not used, until';
  return [
    session.person,
    deviceWords(session.device),
    session.address,
    `last used ${moment(Date.parse(session.usedAt), now)}`,
    `${end} ${moment(Date.parse(session.endsAt), now)}`,
  ].join(' · ');
}

export function tokenWords(token, now) {
  const ends = Date.parse(token.endsAt);
  return [
    token.name,
    token.role,
    ends <= now ? `ended ${moment(ends, now)}` : `until ${moment(ends, now)}`,
    token.usedAt === null ? 'never used' : `last used ${moment(Date.parse(token.usedAt), now)}`,
  ].join(' · ');
}

/** What the owner should know about guesses. */
export function guessWords({ lastDay, latest }, now) {
  if (lastDay === 0) return 'No wrong password in the past 24 hours.';
  const [newest] = latest;
  const whose = newest.person === null ? 'an unknown name' : newest.person;
  return `${count(lastDay, 'wrong password')} in the past 24 hours, the latest for ${whose} from ${newest.address} at ${moment(Date.parse(newest.at), now)}.`;
}
