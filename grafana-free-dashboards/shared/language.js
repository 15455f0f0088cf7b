// The language of the page. The server chooses it and names it in the html element. Tests without a page get English.

const LOCALES = { en: 'en-GB', de: 'de-DE' };

export const language = globalThis.document?.documentElement?.lang in LOCALES ? document.documentElement.lang : 'en';

/** For dates, numbers and sorting. */
export const locale = LOCALES[language];

/** @param byLanguage the texts of each language, by its code */
export const inLanguage = (byLanguage) => byLanguage[language];

const ordinary = new Intl.PluralRules(locale);

/** The form of a counted word. @param forms by plural category (Unicode CLDR): `one` and `other` here */
export const pluralOf = (n, forms) => forms[ordinary.select(n)] ?? forms.other;

/** The character before the decimals. */
export const decimalMark = new Intl.NumberFormat(locale)
  .formatToParts(0.5)
  .find((part) => part.type === 'decimal').value;
