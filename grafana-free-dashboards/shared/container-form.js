// The form for a new container and for changing one. The person types in the unit that the page shows.

import { fields } from './container-fields.js';
import { form, Problems, typedIn } from './form.js';
import { fromUnit } from './format.js';
import { typedNumber } from './typed.js';
import { texts } from './texts.js';

export const DEFAULTS = {
  name: '',
  kind: 'jar',
  heatSource: '',
  room: '',
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
      if (!optional) say(name, texts.aNumberIsMissing(title));
      return null;
    }
    const value = typedNumber(raw);
    if (!Number.isFinite(value)) say(name, texts.isNotANumber(title, typed[name]));
    else if (value < min || value > max) say(name, texts.fromTo(title, min, max));
    return isDegrees ? fromUnit(value) : value;
  };
  const name = (typed.name ?? '').trim();
  if (name === '') say('name', texts.nameGiveTheContainerA);
  const body = {
    name,
    kind: typed.kind,
    heatSource: (typed.heatSource ?? '').trim() || null,
    // An empty text takes the container out of its room; null would keep it there.
    room: (typed.room ?? '').trim(),
    base: read('base', texts.baseTemperature, { degrees: true }),
    ceiling: read('ceiling', texts.ceilingTemperature, { degrees: true, optional: true }),
    band: {
      temperature: {
        low: read('temperatureLow', texts.notColderThan, { degrees: true }),
        high: read('temperatureHigh', texts.notHotterThan, { degrees: true }),
      },
      light: { high: read('lightHigh', texts.notBrighterThan, { min: 0, max: 200000 }) },
      humidity: { low: read('humidityLow', texts.notDrierThan2, { min: 0, max: 100 }) },
    },
  };
  const { low, high } = body.band.temperature;
  if (low !== null && high !== null && low >= high) say('temperatureHigh', texts.notHotterThanMustBe);
  if (body.ceiling !== null && body.base !== null && body.ceiling <= body.base)
    say('ceiling', texts.theCeilingMustBeAbove);
  return { body, problems };
}
