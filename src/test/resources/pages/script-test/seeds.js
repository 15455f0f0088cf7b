import words from './words.js';
const SOWN = 4;
export const half = () => SOWN / 2;
export function told() {
  return words.warm;
}
export async function later() {}
export class Seed {}
