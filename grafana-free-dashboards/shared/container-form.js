// The form for a new container and for changing one. The person types in the unit that the page shows.

import { h, problemBox, whileBusy } from './dom.js';
import { fromUnit, round, toUnit, unitName } from './format.js';
import { CONTAINER_KINDS } from './words.js';

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
  const output = h('div', { class: 'output' });
  const button = h('button', { type: 'submit', class: 'main' }, submit);
  const form = h(
    'form',
    {
      id,
      class: 'form',
      novalidate: true,
      on: {
        submit: async (event) => {
          event.preventDefault();
          const { body, problems } = readForm(Object.fromEntries(new FormData(form)));
          if (problems.length > 0) {
            output.replaceChildren(
              problemBox({ message: 'Please look at this again:', problems: problems.map((one) => one.text) }),
            );
            form.elements[problems[0].field].focus();
            return;
          }
          await whileBusy(button, output, () => save(body, form));
        },
      },
    },
    fields(container),
    output,
    h('div', { class: 'actions' }, button),
  );
  return form;
}

function fields(container) {
  const { band } = container;
  return [
    h(
      'div',
      { class: 'fields two' },
      text('name', 'Name', container.name, 'As written on it, for instance “Jar 3, willow”.', {
        required: true,
        maxlength: 100,
        autocomplete: 'off',
      }),
      choice('kind', 'Kind', container.kind),
    ),
    heatSource(container.heatSource),
    h(
      'fieldset',
      {},
      h('legend', {}, 'Band; an alert follows when left'),
      h(
        'div',
        { class: 'fields two' },
        degrees('temperatureLow', 'Not colder than', band.temperature.low),
        degrees('temperatureHigh', 'Not hotter than', band.temperature.high),
        numberField(
          'lightHigh',
          'Not brighter than (lux)',
          band.light.high,
          'Dark is 0; a sensor may show 1 in full darkness.',
        ),
        numberField('humidityLow', 'Not drier than (%)', band.humidity.low, 'Humidity. Closed and moist is near 100.'),
      ),
    ),
    h(
      'fieldset',
      {},
      h('legend', {}, 'Counting heat'),
      h(
        'div',
        { class: 'fields two' },
        degrees('base', 'Base temperature', container.base, 'Below this, seeds gain nothing.'),
        degrees(
          'ceiling',
          'Ceiling temperature',
          container.ceiling,
          'Above this, no more than at it. Leave empty for none.',
        ),
      ),
    ),
  ];
}

function heatSource(value) {
  return h(
    'div',
    { class: 'field' },
    h('label', { for: 'heat-source' }, 'Heat source'),
    h('input', {
      id: 'heat-source',
      name: 'heatSource',
      value: value ?? '',
      list: 'heat-sources',
      maxlength: 100,
      autocomplete: 'off',
      'aria-describedby': 'heat-help heat-caution',
    }),
    h(
      'datalist',
      { id: 'heat-sources' },
      ['Heat mat', 'Warm closet'].map((source) => h('option', { value: source })),
    ),
    h(
      'p',
      { id: 'heat-help', class: 'help' },
      'Containers with the same words here are taken to be on the same source. Empty: nothing warms it.',
    ),
    h(
      'p',
      { id: 'heat-caution', class: 'caution' },
      h('strong', {}, 'Mains near water. '),
      'Put mat, thermostat and plugs behind residual-current protection, above any spill, with a drip loop in the cable. Follow local codes; fixed wiring is for a licensed electrician. Let the thermostat, not this service, switch the mat.',
    ),
  );
}

function field(name, title, help, input) {
  const id = `field-${name}`;
  input.id = id;
  if (help) input.setAttribute('aria-describedby', `${id}-help`);
  return h(
    'div',
    { class: 'field' },
    h('label', { for: id }, title),
    input,
    help && h('p', { class: 'help', id: `${id}-help` }, help),
  );
}

const text = (name, title, value, help, more) => field(name, title, help, h('input', { name, value, ...more }));
const degrees = (name, title, value, help) => numberField(name, `${title} (${unitName()})`, shown(value), help);

function numberField(name, title, value, help) {
  return field(
    name,
    title,
    help,
    h('input', { name, value: value ?? '', type: 'text', inputmode: 'decimal', autocomplete: 'off' }),
  );
}

const shown = (celsius) => (celsius === null || celsius === undefined ? '' : round(toUnit(celsius), 2));

function choice(name, title, value) {
  const options = Object.entries(CONTAINER_KINDS).map(([key, word]) =>
    h('option', { value: key, selected: key === value }, word),
  );
  return field(name, title, '', h('select', { name }, options));
}

/** From what was typed to what the service takes; what is wrong comes back by field. A comma is a decimal point too. */
export function readForm(typed) {
  const problems = [];
  const say = (name, words) => problems.push({ field: name, text: words });
  const read = (
    name,
    title,
    { optional = false, min = -Infinity, max = Infinity, degrees: isDegrees = false } = {},
  ) => {
    const raw = (typed[name] ?? '').trim().replace(',', '.').replace('\u2212', '-');
    if (raw === '') {
      if (!optional) say(name, `${title}: a number is missing.`);
      return null;
    }
    const value = Number(raw);
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
