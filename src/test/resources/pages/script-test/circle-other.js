import { one } from './circle.js';
export const other = () => one;
