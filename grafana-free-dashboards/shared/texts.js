// The texts of all pages in the reader’s language.

import { inLanguage } from './language.js';
import de from './texts.de.js';
import en from './texts.en.js';

export const texts = inLanguage({ de, en });
