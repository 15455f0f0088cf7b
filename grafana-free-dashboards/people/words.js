// Texts of the page People.

import { count } from '../shared/format.js';
import { moment } from '../shared/time-format.js';
import { texts } from './texts.js';

/** The roles with what they allow. */
export const ROLES = [
  { value: 'look', text: texts.lookSeesEverything },
  { value: 'tend', text: texts.tendAlsoRecordsWork },
  { value: 'own', text: texts.ownEverything },
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
  return words.length > 0 ? words.join(', ') : texts.unknownDevice;
}

export function sessionWords(session, now) {
  const end = session.yearLong ? texts.until : texts.ifNotUsedUntil;
  return [
    session.person,
    deviceWords(session.device),
    session.address,
    texts.lastUsed(moment(Date.parse(session.usedAt), now)),
    `${end} ${moment(Date.parse(session.endsAt), now)}`,
  ].join(' · ');
}

export function tokenWords(token, now) {
  const ends = Date.parse(token.endsAt);
  return [
    token.name,
    token.role,
    ends <= now ? texts.ended(moment(ends, now)) : texts.until2(moment(ends, now)),
    token.usedAt === null ? texts.neverUsed : texts.lastUsed(moment(Date.parse(token.usedAt), now)),
  ].join(' · ');
}

/** What the owner should know about guesses. */
export function guessWords({ lastDay, latest }, now) {
  if (lastDay === 0) return texts.noWrongPasswordInThe;
  const [newest] = latest;
  const whose = newest.person === null ? texts.anUnknownName : newest.person;
  return texts.inThePast24Hours(
    count(lastDay, texts.wrongPasswordCount),
    whose,
    newest.address,
    moment(Date.parse(newest.at), now),
  );
}
