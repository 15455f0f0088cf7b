// Makes each form of dates once: to make one takes far longer than to write a date with it.

const forms = new Map();

/** @param options as of Intl.DateTimeFormat, with timeZone */
export function dateForm(locale, options) {
  const key = `${locale} ${JSON.stringify(options)}`;
  let form = forms.get(key);
  if (!form) forms.set(key, (form = new Intl.DateTimeFormat(locale, options)));
  return form;
}
