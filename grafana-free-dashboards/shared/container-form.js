// The form for a new container and for changing one. The person types in the unit that the page shows.

import { fields } from './container-fields.js';
import { form, Problems, typedIn } from './form.js';
import { fromUnit } from './format.js';
import { typedNumber } from './typed.js';

export const DEFAULTS = {
  name: '',
  kind: 'jar',
  heatSource: '',
  base: 15,
  ceiling: null,
  band: { temperature: { low: 29.5, high: 34 }, light: { high: 1 }, humidity: { low: 80 } },
};

/**
 * @param id of the form; @param container what to start from
 * @param save gets the body and resolves when the service has taken it
 */
export function containerForm({ id, container = DEFAULTS, submit, save }) {
  return form({
    id,
    content: fields(container),
    submit,
    save: (element) => {
      const { body, problems } = readForm(typedIn(element));
      if (problems.length === 0) return save(body, element);
      element.elements[problems[0].field].focus();
      throw new Problems(problems.map((one) => one.text));
    },
  });
}

/** Converts what was typed to the body of the request. Gives the problems by field. A decimal comma is accepted. */
export function readForm(typed) {
  const problems = [];
  const say = (name, words) => problems.push({ field: name, text: words });
  const read = (
    name,
    title,
    { optional = false, min = -Infinity, max = Infinity, degrees: isDegrees = false } = {},
  ) => {
    const raw = typed[name] ?? '';
    if (raw.trim() === '') {
      if (!optional) say(name, `${title}: a number is missing.`);
      return null;
    }
    const value = typedNumber(raw);
    if (!Number.isFinite(value)) say(name, `${title}: “${typed[name]}” is not a number.`);
    else if (value < min || value > max) say(name, `${title}: from ${min} to ${max}.`);
    return isDegrees ? fromUnit(value) : value;
  };
  const name = (typed.name ?? '').trim();
  if (name === '') say('name', 'Name: give the container a name.');
  const body = {
    name,
    kind: typed.kind,
    heatSource: (typed.heatSource ?? '').trim() || null,
    base: read('base', 'Base temperature', { degrees: true }),
    ceiling: read('ceiling', 'Ceiling temperature', { degrees: true, optional: true }),
    band: {
      temperature: {
        low: read('temperatureLow', 'Not colder than', { degrees: true }),
        high: read('temperatureHigh', 'Not hotter than', { degrees: true }),
      },
      light: { high: read('lightHigh', 'Not brighter than', { min: 0, max: 200000 }) },
      humidity: { low: read('humidityLow', 'Not drier than', { min: 0, max: 100 }) },
    },
  };
  const { low, high } = body.band.temperature;
  if (low !== null && high !== null && low >= high)
    say('temperatureHigh', '“Not hotter than” must be above “Not colder than”.');
  if (body.ceiling !== null && body.base !== null && body.ceiling <= body.base)
    say('ceiling', 'The ceiling must be above the base.');
  return { body, problems };
}
