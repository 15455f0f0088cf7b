// Reads what was typed into fields. Pure.

/** The number that was typed, NaN if it is none. A decimal comma and a typographic minus are accepted. */
export const typedNumber = (text) => Number(text.trim().replace(',', '.').replace('\u2212', '-'));
