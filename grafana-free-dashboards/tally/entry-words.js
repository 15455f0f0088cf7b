// Entries of the record in words. Pure.

import { count, number } from '../shared/format.js';
import { CULL_REASONS } from './seed-words.js';
import { listed } from '../shared/text.js';
import { texts } from './texts.js';

/** An entry of the record as one line. */
export function entryWords(entry, names) {
  const { sown, move, check, survival, named } = entry;
  if (sown)
    return texts.sown(
      sown.groups
        .map((part) => texts.intoGroup(count(part.seeds, texts.seedCount), names(part.container), part.group))
        .join(', '),
    );
  if (move) {
    const join = move.joinTo ? texts.putWithGroup(move.joinTo) : '';
    return texts.groupMovedTo(
      entry.group,
      movedWhat(move),
      names(move.to),
      join,
      move.splitInto ? texts.nowGroup(move.splitInto) : '',
    );
  }
  if (check) return texts.checkOfGroup(entry.group, checkWords(check));
  if (survival) return texts.seedlingsOfGroupAlive(entry.group, number(survival.alive));
  if (named)
    return entry.group ? texts.groupNamed(entry.group, named.name) : texts.sowingNamed(entry.sowing, named.name);
  return texts.withdrawn2;
}

function movedWhat({ ungerminated, germinated }) {
  if (ungerminated === null && germinated === null) return texts.allSeeds;
  const parts = [
    ungerminated > 0 && texts.ungerminated(number(ungerminated)),
    germinated > 0 && texts.germinated2(number(germinated)),
  ];
  return listed(parts.filter(Boolean)) || texts.noSeeds;
}

export function checkWords({ germinated = 0, culled = [], pottedOn = 0, rootLengthsCm = [] }) {
  const parts = [
    germinated > 0 && texts.newlyGerminated2(number(germinated)),
    ...(culled ?? []).map((line) =>
      texts.culled3(
        number(line.count),
        CULL_REASONS[line.reason] ?? line.reason,
        line.germinated ? texts.hadGerminated : '',
      ),
    ),
    pottedOn > 0 && texts.pottedOn2(number(pottedOn)),
    rootLengthsCm.length > 0 &&
      texts.ofCm(rootLengthsCm.length === 1 ? texts.aRoot : texts.roots, rootLengthsCm.join('; ')),
  ];
  return parts.filter(Boolean).join(', ') || texts.nothingNew;
}
