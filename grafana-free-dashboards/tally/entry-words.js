// Entries of the record in words. Pure.

import { count, number } from '../shared/format.js';
import { CULL_REASONS } from './seed-words.js';

/** An entry of the record as one line. */
export function entryWords(entry, names) {
  const { sown, move, check, survival } = entry;
  if (sown)
    return `Sown: ${sown.groups.map((part) => `${count(part.seeds, 'seed')} into ${names(part.container)} (group ${part.group})`).join(', ')}`;
  if (move) {
    const join = move.joinTo ? `, put with group ${move.joinTo}` : '';
    return `Group ${entry.group}: ${movedWhat(move)} moved to ${names(move.to)}${join}${move.splitInto ? `, now group ${move.splitInto}` : ''}`;
  }
  if (check) return `Check of group ${entry.group}: ${checkWords(check)}`;
  if (survival) return `Seedlings of group ${entry.group}: ${number(survival.alive)} alive`;
  return 'Withdrawn';
}

function movedWhat({ ungerminated, germinated }) {
  if (ungerminated === null && germinated === null) return 'all seeds';
  const parts = [
    ungerminated > 0 && `${number(ungerminated)} ungerminated`,
    germinated > 0 && `${number(germinated)} germinated`,
  ];
  return parts.filter(Boolean).join(' and ') || 'no seeds';
}

export function checkWords({ germinated = 0, culled = [], pottedOn = 0, rootLengthsCm = [] }) {
  const parts = [
    germinated > 0 && `${number(germinated)} newly germinated`,
    ...(culled ?? []).map(
      (line) =>
        `${number(line.count)} culled (${CULL_REASONS[line.reason] ?? line.reason}${line.germinated ? ', had germinated' : ''})`,
    ),
    pottedOn > 0 && `${number(pottedOn)} potted on`,
    rootLengthsCm.length > 0 && `${rootLengthsCm.length === 1 ? 'a root' : 'roots'} of ${rootLengthsCm.join('; ')} cm`,
  ];
  return parts.filter(Boolean).join(', ') || 'nothing new';
}
