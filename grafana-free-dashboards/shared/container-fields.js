// The fields of the form for a container.

import { h } from './dom.js';
import { field as labelled } from './form.js';
import { round, toUnit, unitName } from './format.js';
import { CONTAINER_KINDS } from './container-words.js';

export function fields(container) {
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
      h('legend', {}, 'Limits: you get an alert outside of them'),
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
          'Above it, heat counts as at it. Leave empty for none.',
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

const field = (name, title, help, input) => {
  input.id = `field-${name}`;
  return labelled(title, input, help);
};

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
