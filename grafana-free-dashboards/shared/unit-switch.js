// The button in the head that changes between °C and °F.

import { h } from './dom.js';
import { setTemperatureUnit, temperatureUnit } from './format.js';
import { texts } from './texts.js';

/** @param redraw called after each change */
export function unitSwitch(redraw) {
  const celsius = h('span', {}, '°C');
  const fahrenheit = h('span', {}, '°F');
  const show = () => {
    const inFahrenheit = temperatureUnit() === 'F';
    celsius.className = inFahrenheit ? '' : 'on';
    fahrenheit.className = inFahrenheit ? 'on' : '';
    button.setAttribute(
      'aria-label',
      texts.temperaturesIn(inFahrenheit ? texts.fahrenheitChangeToCelsius : texts.celsiusChangeToFahrenheit),
    );
  };
  const change = () => {
    setTemperatureUnit(temperatureUnit() === 'C' ? 'F' : 'C');
    show();
    redraw?.();
  };
  const button = h(
    'button',
    { type: 'button', class: 'units', on: { click: change } },
    celsius,
    h('span', { 'aria-hidden': 'true' }, ' / '),
    fahrenheit,
  );
  show();
  return button;
}
