// The sensors inside a container, and the correction of each.

import { api } from '../shared/api.js';
import { byId, h, problemBox, reconcile, setText, whileBusy } from '../shared/dom.js';
import { setAge } from '../shared/ages.js';
import { latestWords } from '../shared/latest-words.js';

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
  const output = h('div', { role: 'status' });
  const button = h('button', { type: 'submit' }, 'Keep the correction');
  const form = h(
    'form',
    {
      class: 'form',
      on: {
        submit: (event) => {
          event.preventDefault();
          const { body, problems } = readCorrection(form);
          if (problems.length > 0)
            output.replaceChildren(problemBox({ message: 'Please look at this again:', problems }));
          else
            whileBusy(button, output, async () => {
              await api.calibrate(sensor.sensor, body);
              for (const input of form.querySelectorAll('input')) input.defaultValue = input.value;
              output.replaceChildren(h('p', { class: 'done' }, 'Kept. All figures follow, also those of the past.'));
            });
        },
      },
    },
    h(
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
    output,
    h('div', { class: 'actions' }, button),
  );
  return h(
    'li',
    {},
    h('strong', {}, sensor.sensor),
    ' ',
    h('span', { class: 'what' }),
    ' ',
    h('time', { class: 'age' }),
    h('details', {}, h('summary', {}, 'Correct this sensor'), form),
  );
}

function updateSensor(item, sensor) {
  setText(item.querySelector('.what'), latestWords(sensor));
  setAge(item.querySelector('time'), sensor.lastHeard, 'heard ');
  for (const input of item.querySelectorAll('form input')) fillUntouched(input, sensor.calibration?.[input.name]);
}

/** The correction in force, unless somebody is typing another. */
function fillUntouched(input, value) {
  const known = value === null || value === undefined ? '' : String(value);
  if (input.value !== input.defaultValue || input.defaultValue === known) return;
  input.defaultValue = known;
  input.value = known;
}

function correction(sensor, name, title, help) {
  const id = `${name}-${sensor.sensor}`;
  return h(
    'div',
    { class: 'field' },
    h('label', { for: id }, title),
    h('input', {
      id,
      name,
      type: 'text',
      inputmode: 'text',
      autocomplete: 'off',
      value: sensor.calibration?.[name] ?? '',
      'aria-describedby': `${id}-help`,
    }),
    h('p', { class: 'help', id: `${id}-help` }, help),
  );
}

function readCorrection(form) {
  const body = {};
  const problems = [];
  for (const input of form.elements) {
    if (!input.name) continue;
    const raw = input.value.trim().replace(',', '.').replace('\u2212', '-');
    body[input.name] = raw === '' ? null : Number(raw);
    if (Number.isNaN(body[input.name])) problems.push(`“${input.value}” is not a number.`);
  }
  return { body, problems };
}
