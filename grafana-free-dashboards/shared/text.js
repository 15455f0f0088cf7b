// Small helpers for sentences. Pure.

export const known = (value) => value !== null && value !== undefined;

export const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

export function listed(items) {
  return items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;
}
