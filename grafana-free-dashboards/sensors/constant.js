// The form for the constant correction of a sensor.

import { api } from '../shared/api.js';
import { h } from '../shared/dom.js';
import { field, fillUntouched, form, Problems } from '../shared/form.js';
import { fieldNumber, typedNumber } from '../shared/typed.js';
import { texts } from './texts.js';

export function makeConstant(key) {
  return form({
    id: 'constant',
    content: h(
      'div',
      { class: 'fields' },
      correction('temperatureOffset', texts.addToTemperatureDegreesc, texts.ifItReads04),
      correction('humidityOffset', texts.addToHumidity, texts.fromASaltJarLeft),
      correction('temperatureError', texts.mayBeOffByDegreesc, texts.whatTheMakerStatesOr),
    ),
    submit: texts.keepTheCorrection,
    plain: true,
    output: h('div', { role: 'status' }),
    save: async (element, output) => {
      const { body, problems } = readCorrection(element);
      if (problems.length > 0) throw new Problems(problems);
      await api.calibrate(key, body);
      for (const input of element.querySelectorAll('input')) input.defaultValue = input.value;
      output.replaceChildren(h('p', { class: 'done' }, texts.keptAllFiguresFollowAlso));
    },
  });
}

export function updateConstant(element, sensor) {
  for (const input of element.querySelectorAll('input'))
    fillUntouched(input, fieldNumber(sensor.calibration?.[input.name]));
}

function correction(name, title, help) {
  const input = h('input', {
    name,
    type: 'text',
    inputmode: 'text',
    autocomplete: 'off',
    data: { entered: 'celsius' },
  });
  return field(title, input, help);
}

function readCorrection(element) {
  const body = {};
  const problems = [];
  for (const input of element.elements) {
    if (!input.name) continue;
    body[input.name] = input.value.trim() === '' ? null : typedNumber(input.value);
    if (Number.isNaN(body[input.name])) problems.push(texts.isNotANumber(input.value));
  }
  return { body, problems };
}
