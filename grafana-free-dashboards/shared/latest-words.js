// The newest values of a sensor as one line. Pure.

import * as f from './format.js';

export function latestWords(sensor) {
  const { temperature, humidity, light, co2, mediumMoisture, battery } = sensor.latest ?? {};
  const parts = [
    temperature && f.temperature(temperature.value),
    humidity && f.humidity(humidity.value),
    light && f.lux(light.value),
    co2 && `CO₂ ${f.ppm(co2.value)}`,
    mediumMoisture && `medium ${f.mediumMoisture(mediumMoisture.value)}`,
    battery && `battery ${f.volts(battery.value)}`,
    sensor.uncertain && `${f.count(sensor.uncertain.count, 'reading')} of uncertain time`,
  ];
  return parts.filter(Boolean).join(' · ') || 'no values yet';
}
