// The sensors inside a container, and the correction of each.

import { api } from '../shared/api.js';
import { byId, h, reconcile, setText } from '../shared/dom.js';
import { field, form, Problems } from '../shared/form.js';
import { setAge } from '../shared/ages.js';
import { latestWords } from '../shared/latest-words.js';
import { makeCalibration } from './calibration.js';
import { typedNumber } from '../shared/typed.js';

export function showSensors(container, sensors) {
  const place = byId('sensors-part').lastElementChild;
  const inside = container.sensors.map((name) => sensors.get(name) ?? { sensor: name, latest: {}, calibration: {} });
  if (!place.firstChild) {
    place.append(
      h('p', { id: 'no-sensor' }),
      h('ul', { class: 'rows' }),
      h(
        'p',
        {},
        h('a', { class: 'button', href: `/?place=${encodeURIComponent(container.id)}` }, 'Place or move a sensor'),
      ),
    );
  }
  setText(
    byId('no-sensor'),
    inside.length === 0 ? 'None. Until one is placed here, nothing is known about this container.' : '',
  );
  reconcile(place.querySelector('ul'), inside, (sensor) => sensor.sensor, makeSensor, updateSensor);
}

function makeSensor(sensor) {
  const correctionForm = form({
    content: h(
      'div',
      { class: 'fields' },
      correction(
        sensor,
        'temperatureOffset',
        'Add to temperature (°C)',
        'If it reads 0.4 too high in melting ice, put −0.4.',
      ),
      correction(sensor, 'humidityOffset', 'Add to humidity (%)', 'From a salt jar, left for hours.'),
      correction(sensor, 'temperatureError', 'May be off by (± °C)', 'What the maker states, or what you found.'),
    ),
    submit: 'Keep the correction',
    plain: true,
    output: h('div', { role: 'status' }),
    save: async (element, output) => {
      const { body, problems } = readCorrection(element);
      if (problems.length > 0) throw new Problems(problems);
      await api.calibrate(sensor.sensor, body);
      for (const input of element.querySelectorAll('input')) input.defaultValue = input.value;
      output.replaceChildren(h('p', { class: 'done' }, 'Kept. All figures follow, also those of the past.'));
    },
  });
  return h(
    'li',
    {},
    h('strong', {}, sensor.sensor),
    ' ',
    h('span', { class: 'what' }),
    ' ',
    h('time', { class: 'age' }),
    h('details', { class: 'constant' }, h('summary', {}, 'Correct this sensor'), correctionForm),
    makeCalibration(sensor),
  );
}

function updateSensor(item, sensor) {
  setText(item.querySelector('.what'), latestWords(sensor));
  setAge(item.querySelector('time'), sensor.lastHeard, 'heard ');
  for (const input of item.querySelectorAll('.constant input')) fillUntouched(input, sensor.calibration?.[input.name]);
}

/** The correction in force, unless somebody is typing another. */
function fillUntouched(input, value) {
  const known = value === null || value === undefined ? '' : String(value);
  if (input.value !== input.defaultValue || input.defaultValue === known) return;
  input.defaultValue = known;
  input.value = known;
}

function correction(sensor, name, title, help) {
  const input = h('input', {
    id: `${name}-${sensor.sensor}`,
    name,
    type: 'text',
    inputmode: 'text',
    autocomplete: 'off',
    value: sensor.calibration?.[name] ?? '',
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
