// The form that adds a calibration point to a sensor.

import { api } from '../shared/api.js';
import { h } from '../shared/dom.js';
import { field, form, Problems, typedIn } from '../shared/form.js';
import { CALIBRATED, METHODS, SALTS, methodsOf, readPoint } from './calibration-words.js';
import { texts } from './texts.js';

const options = (choices) => choices.map(({ key, title }) => h('option', { value: key }, title));

/** @param show is called with the sensor's calibration once the point is added */
export function pointForm(sensor, show) {
  const quantity = h('select', { name: 'quantity' }, options(CALIBRATED));
  const method = h('select', { name: 'method' }, options(methodsOf('temperature')));
  const text = (name) =>
    h('input', { name, type: 'text', inputmode: 'text', autocomplete: 'off', data: { entered: 'celsius' } });
  const inputs = Object.fromEntries(
    ['reading', 'trueValue', 'uncertainty', 'saltTemperature', 'note'].map((name) => [name, text(name)]),
  );
  const salt = h('select', { name: 'salt' }, h('option', { value: '' }, texts.enterTheValue), options(SALTS));
  const saltFields = h(
    'div',
    { class: 'fields' },
    field(texts.salt, salt, texts.aWetSlurryClosedFor),
    field(texts.temperatureOfTheJarDegreesc, inputs.saltTemperature),
  );
  const unit = h('span');
  const element = form({
    content: [
      h(
        'div',
        { class: 'fields' },
        field(texts.quantity, quantity),
        field(texts.method, method),
        field(texts.when, h('input', { name: 'at', type: 'datetime-local' }), texts.emptyNow),
      ),
      saltFields,
      h(
        'div',
        { class: 'fields' },
        field(texts.reading, inputs.reading, texts.asTheSensorSendsIt),
        field(texts.trueValue, inputs.trueValue),
        field(texts.uncertaintyOfTheTrueValue, inputs.uncertainty, texts.standardUncertaintyHalfOfA),
        field(texts.note, inputs.note),
      ),
      h('p', { class: 'help' }, texts.valuesIn, unit, '.'),
    ],
    submit: texts.addThePoint,
    plain: true,
    save: async (made, output) => {
      const { body, problems } = readPoint(typedIn(made));
      if (problems.length > 0) throw new Problems(problems);
      show(await api.addCalibrationPoint(sensor.sensor, body));
      for (const name of ['reading', 'trueValue', 'note']) inputs[name].value = '';
      fill();
      output.replaceChildren(h('p', { class: 'done' }, texts.addedAllFiguresFollowAlso));
    },
  });

  function choose() {
    method.replaceChildren(...options(methodsOf(quantity.value)));
    unit.textContent = CALIBRATED.find(({ key }) => key === quantity.value).unit;
    const sent = sensor.latest?.[quantity.value];
    inputs.reading.placeholder = sent ? texts.now(sent.value) : '';
    fill();
  }

  function fill() {
    const chosen = METHODS.find(({ key }) => key === method.value);
    inputs.trueValue.value = chosen.trueValue ?? '';
    inputs.uncertainty.value = chosen.uncertainty ?? '';
    saltFields.hidden = chosen.key !== 'saturatedSalt';
    knowBySalt();
  }

  function knowBySalt() {
    const known = method.value === 'saturatedSalt' && salt.value !== '';
    for (const name of ['trueValue', 'uncertainty']) inputs[name].closest('.field').hidden = known;
    inputs.saltTemperature.closest('.field').hidden = !known;
  }

  quantity.addEventListener('change', choose);
  method.addEventListener('change', fill);
  salt.addEventListener('change', knowBySalt);
  choose();
  return element;
}
