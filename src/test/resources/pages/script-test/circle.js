import { other } from './circle-other.js';
export const one = other;
