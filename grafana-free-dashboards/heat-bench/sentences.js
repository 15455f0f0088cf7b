// The verdicts of the heat bench in the chosen unit. The service has the same sentences in °C. Sentences without a
// temperature or heat are used as the service sends them. Pure.

import * as f from '../shared/format.js';

const one = (value) => f.number(value, 1);
const heat = (value) => one(f.differenceToUnit(value));
const degrees = (celsius) => one(f.toUnit(celsius));
const known = (value) => value !== null && value !== undefined;

/** One decimal, or none for a whole number. */
const plain = (value) => f.number(value, Math.abs(value - Math.round(value)) < 1e-9 ? 0 : 1);

/** The whole comparison. */
export const comparisonSentence = (answer) =>
  answer.pairs.length === 1 ? pairSentence(answer, answer.pairs[0]) : answer.verdict;

/** A difference that chance makes more often than this can be chance. */
const MAX_P = 0.05;

/** One pair in a sentence or two. Names the side with more heat first. */
export function pairSentence(answer, pair) {
  const sides = [pair.first, pair.second].map((key) => answer.compared.find((side) => side.key === key));
  const [a, b] = sides.map((side) => side.name);
  const gain = pair.differences.degreeHoursPerDay;
  if (!gain || !known(gain.low) || !known(gain.high)) return pair.words;
  const unit = `${f.unitName()}·h a day`;
  const [more, less] = gain.value > 0 ? [a, b] : [b, a];
  const difference = `${more} gave ${heat(Math.abs(gain.value))} ${unit} more than ${less}`;
  switch (pair.finding) {
    case 'more':
    case 'less':
      return `${difference}.${chanceWords(pair, sides)}`;
    case 'none-shown':
      return (
        `No clear difference in heat between ${a} and ${b}: likely from ${heat(gain.low)} to ${heat(gain.high)} ${unit}. ` +
        `The error of their sensors can hide a difference of up to ${heat(pair.sensorError)} ${unit}.`
      );
    case 'within-sensor-error':
      return (
        `${difference}, but their sensors may be wrong by that much (±${heat(pair.sensorError)} ${unit}). ` +
        `Swap ${answer.by === 'sources' ? `a sensor of ${a} with one of ${b}` : `the sensor of ${a} with that of ${b}`}, and measure again.`
      );
    case 'only-these-containers':
      return `${difference}. That can be due to these containers and not to the heat source: add a container to ${smaller(sides)}.`;
    default:
      return pair.words;
  }
}

/** Whether chance explains the difference of two heat sources; empty between two containers. */
function chanceWords({ permutationP, leastPermutationP }, sides) {
  if (!known(leastPermutationP)) return '';
  const [a, b] = sides.map((side) => side.containers.length);
  const counts = ` With ${a} and ${b} containers`;
  if (Math.min(a, b) < 2)
    return `${counts} it can be due to the containers and not to the heat source: add a container to ${smaller(sides)}.`;
  if (!known(permutationP) || permutationP > MAX_P)
    return `${counts} that can still be chance: add a container to ${smaller(sides)}.`;
  return `${counts}, chance alone does that in ${one(100 * permutationP)} of 100 cases.`;
}

/** The side with fewer containers; both if they have equally many. */
function smaller([a, b]) {
  if (a.containers.length === b.containers.length) return 'each';
  return a.containers.length < b.containers.length ? a.name : b.name;
}

/** What the number of containers can show at best, for those who ask how it is worked out. Empty between containers. */
export function permutationNote(answer, pair) {
  if (!known(pair.leastPermutationP)) return '';
  const [a, b] = [pair.first, pair.second].map((key) => answer.compared.find((side) => side.key === key));
  const here = known(pair.permutationP) ? `; here it is ${f.number(pair.permutationP, 3)}` : '';
  return (
    `${a.name} and ${b.name}: the container is the unit. With ${a.containers.length} against ${b.containers.length}, ` +
    `the smallest possible permutation p is ${f.number(pair.leastPermutationP, 3)}${here}.`
  );
}

/** The result of a trial, or why there is none. */
export function trialSentence(trial) {
  switch (trial.outcome) {
    case 'told':
      return toldSentence(trial);
    case 'room-too-steady':
      return (
        `The room was too steady, between ${degrees(trial.roomMin)} and ${degrees(trial.roomMax)} ${f.unitName()}, to show how the place follows it. ` +
        'Repeat the trial over colder nights, or let the room cool for some hours.'
      );
    case 'hardly-follows':
      return (
        `The room changed from ${degrees(trial.roomMin)} to ${degrees(trial.roomMax)} ${f.unitName()}, the place only from ${degrees(trial.insideMin)} to ${degrees(trial.insideMax)} ${f.unitName()}. ` +
        'Either something regulates it, or it warms and cools slowly: the trial is too short to tell which. Go on for some days more.'
      );
    case 'unclear':
      return (
        `The room changed enough (${degrees(trial.roomMin)} to ${degrees(trial.roomMax)} ${f.unitName()}), but the place changed for other reasons too: an opened lid, the sun, or a heater that switches. ` +
        'Leave it closed and shaded for two days. If its heater switches, let the sensor report every minute.'
      );
    case 'regulated':
      return (
        `Something regulates this place: it follows the room (${degrees(trial.roomMin)} to ${degrees(trial.roomMax)} ${f.unitName()}) less than with an unregulated heater. ` +
        'The lowest room temperature for it is not known, because the heater never reached its limit.'
      );
    default:
      return trial.verdict;
  }
}

function toldSentence({ low, sensorError }) {
  const limit = `${plain(f.toUnit(low.limit))} ${f.unitName()}`;
  const { roomBelow, hoursToFall, hoursWithoutHeat } = low;
  const first =
    `This place falls below ${limit} when the room stays below ${degrees(roomBelow.value)} ${f.unitName()} ` +
    `(95 %: ${degrees(roomBelow.low)} to ${degrees(roomBelow.high)}; the sensors may add ±${heat(sensorError)}).`;
  const fall = !hoursToFall
    ? ' Its mean in the trial was already below that.'
    : ` In a room another ${plain(f.differenceToUnit(low.colderBy))} ${f.unitName()} colder, this takes ${one(hoursToFall.value)} hours (${one(hoursToFall.low)} to ${one(hoursToFall.high)}).`;
  const failure = !hoursWithoutHeat
    ? ''
    : ` If the heat fails at the mean room temperature of the trial, it falls below ${limit} after ${one(hoursWithoutHeat.value)} hours (${one(hoursWithoutHeat.low)} to ${one(hoursWithoutHeat.high)}).`;
  return first + fall + failure;
}
