// The form for the constant correction of a sensor.

import { api } from '../shared/api.js';
import { h } from '../shared/dom.js';
import { field, fillUntouched, form, Problems } from '../shared/form.js';
import { typedNumber } from '../shared/typed.js';

export function makeConstant(key) {
  return form({
    id: 'constant',
    content: h(
      'div',
      { class: 'fields' },
      correction('temperatureOffset', 'Add to temperature (°C)', 'If it reads 0.4 too high in melting ice, put −0.4.'),
      correction('humidityOffset', 'Add to humidity (%)', 'From a salt jar, left for hours.'),
      correction('temperatureError', 'May be off by (± °C)', 'What the maker states, or what you found.'),
    ),
    submit: 'Keep the correction',
    plain: true,
    output: h('div', { role: 'status' }),
    save: async (element, output) => {
      const { body, problems } = readCorrection(element);
      if (problems.length > 0) throw new Problems(problems);
      await api.calibrate(key, body);
      for (const input of element.querySelectorAll('input')) input.defaultValue = input.value;
      output.replaceChildren(h('p', { class: 'done' }, 'Kept. All figures follow, also those of the past.'));
    },
  });
}

export function updateConstant(element, sensor) {
  for (const input of element.querySelectorAll('input')) fillUntouched(input, sensor.calibration?.[input.name]);
}

function correction(name, title, help) {
  const input = h('input', {
    name,
    type: 'text',
    inputmode: 'text',
    autocomplete: 'off',
  });
  return field(title, input, help);
}

function readCorrection(element) {
  const body = {};
  const problems = [];
  for (const input of element.elements) {
    if (!input.name) continue;
    body[input.name] = input.value.trim() === '' ? null : typedNumber(input.value);
    if (Number.isNaN(body[input.name])) problems.push(`“${input.value}” is not a number.`);
  }
  return { body, problems };
}
