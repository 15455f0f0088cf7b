// The name of a sensor and its place, in words. Pure.

import { texts } from './texts.js';

export const ROOM = 'room';

/** The name that the grower gave the sensor, else the name in its topic. */
export const nameOf = (sensor) => sensor.name ?? sensor.sensor;

/** The address of the sheet of a sensor. */
export const sheetOf = (sensor) => `/sensors.html?sensor=${encodeURIComponent(sensor.sensor)}`;

/** The container (or 'room') that a sensor is in at this moment, or null. */
export function placeOf(sensor, at) {
  const current = (sensor.placements ?? []).find(
    (placement) =>
      Date.parse(placement.from) <= at &&
      (placement.until === null || placement.until === undefined || Date.parse(placement.until) > at),
  );
  return current?.container ?? null;
}

/** @param containers a map of containers by id */
export function placeWords(place, containers) {
  if (place === null) return texts.withoutAPlace;
  return place === ROOM ? texts.outsideInTheRoom : texts.inWord(containers.get(place)?.name ?? place);
}
