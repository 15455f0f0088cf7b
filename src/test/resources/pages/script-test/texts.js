import de from './texts.de.js';
import en from './texts.en.js';
export const texts = { de, en };
