// Labels on sheets, and their words. Pure.

import { count } from '../shared/format.js';
import { locale } from '../shared/language.js';
import { texts } from './texts.js';

export const PER_SHEET = 24;
const MOST_SOWINGS = 2;

/**
 * Divides labels into sheets of 24 places.
 * @param first the first free place of the first sheet, 1 to 24; places before it stay null
 */
export function sheetsOf(labels, first) {
  if (labels.length === 0) return [];
  const places = [...Array(first - 1).fill(null), ...labels];
  const sheets = [];
  for (let i = 0; i < places.length; i += PER_SHEET) sheets.push(places.slice(i, i + PER_SHEET));
  return sheets;
}

/** The place typed, held within 1 to 24. */
export const firstPlace = (typed) => Math.min(PER_SHEET, Math.max(1, Math.trunc(Number(typed)) || 1));

const dayOf = (at, zone) =>
  new Intl.DateTimeFormat(locale, { day: 'numeric', month: 'short', year: 'numeric', timeZone: zone }).format(
    new Date(at),
  );

/** The lines of a label: for each sowing its seeds and its date. Of more than two sowings, the first and the number of the others. */
export function sowingLines(sowings, zone) {
  const shown = sowings.length > MOST_SOWINGS ? sowings.slice(0, 1) : sowings;
  const lines = shown.map((one) => [
    texts.lot(one.speciesName, count(one.seeds, texts.seedCount), one.lot),
    texts.sown(dayOf(one.sownAt, zone)),
  ]);
  const more = sowings.length - shown.length;
  return more > 0 ? [...lines, [texts.andMoreSowings(more)]] : lines;
}

/** Why a phone cannot open the codes. */
export const loopbackWords = (address) => texts.aPhoneCannotOpenSet(new URL(address).hostname);
