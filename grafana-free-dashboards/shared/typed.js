// Reads what was typed into fields, and writes numbers as people type them. Pure.

import { decimalMark } from './language.js';

/** The number that was typed, NaN if it is none. A decimal comma and a typographic minus are accepted. */
export const typedNumber = (text) => Number(text.trim().replace(',', '.').replace('\u2212', '-'));

/** A number as it stands in a field, with the decimal mark of the language; empty if there is none. */
export const fieldNumber = (value) =>
  value === null || value === undefined || value === '' ? '' : String(value).replace('.', decimalMark);
