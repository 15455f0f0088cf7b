// What each setting means, in the reader’s language. The service tells it in English, from the documents.

import { language } from '../shared/language.js';
import { DEFAULTS, MEANINGS } from './texts.meanings.js';

export const inReadersLanguage = (settings) =>
  language === 'de'
    ? settings.map((one) => ({
        ...one,
        meaning: MEANINGS[one.name] ?? one.meaning,
        default: DEFAULTS[one.default] ?? one.default,
      }))
    : settings;
