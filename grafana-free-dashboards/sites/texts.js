// The texts of this page in the reader’s language.

import { inLanguage } from '../shared/language.js';
import de from './texts.de.js';
import en from './texts.en.js';

export const texts = inLanguage({ de, en });
