// What a trial of a place told, and what so few containers can show, in the chosen unit and language. The service has the
// same sentences of the trial in English and °C. Pure.

import * as f from '../shared/format.js';
import { texts } from './texts.js';

const one = (value) => f.number(value, 1);
const heat = (value) => one(f.differenceToUnit(value));
const degrees = (celsius) => one(f.toUnit(celsius));
const known = (value) => value !== null && value !== undefined;

/** One decimal, or none for a whole number. */
const plain = (value) => f.number(value, Math.abs(value - Math.round(value)) < 1e-9 ? 0 : 1);

/** What the number of containers can show at best, for those who ask how it is worked out. Empty between containers. */
export function permutationNote(answer, pair) {
  if (!known(pair.leastPermutationP)) return '';
  const [a, b] = [pair.first, pair.second].map((key) => answer.compared.find((side) => side.key === key));
  const here = known(pair.permutationP) ? texts.hereItIs(f.number(pair.permutationP, 3)) : '';
  return (
    texts.andTheContainerIsThe(a.name, b.name, a.containers.length, b.containers.length) +
    texts.theSmallestPossiblePermutation(f.number(pair.leastPermutationP, 3), here)
  );
}

/** The result of a trial, or why there is none. */
export function trialSentence(trial) {
  switch (trial.outcome) {
    case 'told':
      return toldSentence(trial);
    case 'room-too-steady':
      return (
        texts.theRoomWasTooSteady(degrees(trial.roomMin), degrees(trial.roomMax), f.unitName()) +
        texts.repeatTheTrialOverColder
      );
    case 'hardly-follows':
      return (
        texts.theRoomChangedFromTo(
          degrees(trial.roomMin),
          degrees(trial.roomMax),
          f.unitName(),
          degrees(trial.insideMin),
          degrees(trial.insideMax),
        ) + texts.eitherSomethingRegulatesItOr
      );
    case 'unclear':
      return (
        texts.theRoomChangedEnoughTo(degrees(trial.roomMin), degrees(trial.roomMax), f.unitName()) +
        texts.leaveItClosedAndShaded
      );
    case 'regulated':
      return (
        texts.somethingRegulatesThisPlace(degrees(trial.roomMin), degrees(trial.roomMax), f.unitName()) +
        texts.theLowestRoomTemperatureFor
      );
    case 'too-short':
      return texts.trialTooShort(one(trial.coveredHours));
    case 'no-fit':
      return texts.trialWithoutFit;
    default:
      return '';
  }
}

function toldSentence({ low, sensorError }) {
  const limit = `${plain(f.toUnit(low.limit))} ${f.unitName()}`;
  const { roomBelow, hoursToFall, hoursWithoutHeat } = low;
  const first =
    texts.thisPlaceFallsBelowWhen(limit, degrees(roomBelow.value), f.unitName()) +
    texts.n95ToTheSensorsMay(degrees(roomBelow.low), degrees(roomBelow.high), heat(sensorError));
  const fall = !hoursToFall
    ? texts.itsMeanInTheTrial
    : texts.inARoomAnotherColder(
        plain(f.differenceToUnit(low.colderBy)),
        f.unitName(),
        one(hoursToFall.value),
        one(hoursToFall.low),
        one(hoursToFall.high),
      );
  const failure = !hoursWithoutHeat
    ? ''
    : texts.ifTheHeatFailsAt(limit, one(hoursWithoutHeat.value), one(hoursWithoutHeat.low), one(hoursWithoutHeat.high));
  return first + fall + failure;
}
