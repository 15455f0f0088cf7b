// The fields of the form for a container.

import { api } from './api.js';
import { h } from './dom.js';
import { field as labelled } from './form.js';
import { round, toUnit, unitName } from './format.js';
import { CONTAINER_KINDS } from './container-words.js';
import { fieldNumber } from './typed.js';
import { texts } from './texts.js';

export function fields(container) {
  const { band } = container;
  return [
    h(
      'div',
      { class: 'fields two' },
      text('name', texts.name, container.name, texts.asWrittenOnItFor, {
        required: true,
        maxlength: 100,
        autocomplete: 'off',
      }),
      choice('kind', texts.kind, container.kind),
      room(container.room),
    ),
    heatSource(container.heatSource),
    h(
      'fieldset',
      {},
      h('legend', {}, texts.limitsYouGetAnAlert),
      h(
        'div',
        { class: 'fields two' },
        degrees('temperatureLow', texts.notColderThan, band.temperature.low),
        degrees('temperatureHigh', texts.notHotterThan, band.temperature.high),
        numberField('lightHigh', texts.notBrighterThanLux, band.light.high, texts.darkIs0ASensor),
        numberField('humidityLow', texts.notDrierThan, band.humidity.low, texts.humidityClosedAndMoistIs),
      ),
    ),
    h(
      'fieldset',
      {},
      h('legend', {}, texts.countingHeat),
      h(
        'div',
        { class: 'fields two' },
        degrees('base', texts.baseTemperature, container.base, texts.belowThisSeedsGainNothing),
        degrees('ceiling', texts.ceilingTemperature, container.ceiling, texts.aboveItHeatCountsAs),
      ),
    ),
  ];
}

function room(value) {
  const known = h('datalist', { id: 'rooms' });
  // Without an answer there are no suggestions, and the field still works.
  api.rooms().then(
    (rooms) => known.replaceChildren(...rooms.map((one) => h('option', { value: one.name }))),
    () => {},
  );
  return [
    text('room', texts.roomOrBench, value, texts.whereItStands, {
      list: 'rooms',
      maxlength: 64,
      autocomplete: 'off',
    }),
    known,
  ];
}

function heatSource(value) {
  return h(
    'div',
    { class: 'field' },
    h('label', { for: 'heat-source' }, texts.heatSource),
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
      [texts.heatMat, texts.warmCloset].map((source) => h('option', { value: source })),
    ),
    h('p', { id: 'heat-help', class: 'help' }, texts.containersWithTheSameWords),
    h(
      'p',
      { id: 'heat-caution', class: 'caution' },
      h('strong', {}, texts.mainsNearWater),
      texts.putMatThermostatAndPlugs,
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
    h('input', { name, value: fieldNumber(value), type: 'text', inputmode: 'decimal', autocomplete: 'off' }),
  );
}

const shown = (celsius) => (celsius === null || celsius === undefined ? '' : round(toUnit(celsius), 2));

function choice(name, title, value) {
  const options = Object.entries(CONTAINER_KINDS).map(([key, word]) =>
    h('option', { value: key, selected: key === value }, word),
  );
  return field(name, title, '', h('select', { name }, options));
}
