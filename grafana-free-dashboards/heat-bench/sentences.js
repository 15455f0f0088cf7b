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

/** One pair in a sentence or two. */
export function pairSentence(answer, pair) {
  const sides = [pair.first, pair.second].map((key) => answer.compared.find((side) => side.key === key));
  const [a, b] = sides.map((side) => side.name);
  const gain = pair.differences.degreeHoursPerDay;
  if (!gain || !known(gain.low) || !known(gain.high)) return pair.words;
  const more = gain.value > 0;
  const [low, high] = more ? [gain.low, gain.high] : [-gain.high, -gain.low];
  const unit = `${f.unitName()}·h a day`;
  const difference = `${a} gave ${heat(Math.abs(gain.value))} ${unit} ${more ? 'more' : 'less'} than ${b} (95 %: ${heat(low)} to ${heat(high)})`;
  switch (pair.finding) {
    case 'more':
    case 'less':
      return `${difference}.${containerWords(pair, sides)}`;
    case 'none-shown':
      return `No clear difference in heat between ${a} and ${b}: ${heat(gain.value)} ${unit} (95 %: ${heat(gain.low)} to ${heat(gain.high)}).`;
    case 'within-sensor-error':
      return `${difference}, but this is within the error of their sensors (±${heat(pair.sensorError)} ${unit}). Swap the sensors and measure again.`;
    case 'only-these-containers':
      return `${difference}, but this shows only that these containers differ.${containerWords(pair, sides)}`;
    default:
      return pair.words;
  }
}

/** Says how far the number of containers supports the comparison. */
function containerWords({ permutationP, leastPermutationP }, sides) {
  if (!known(leastPermutationP)) return '';
  const [a, b] = sides.map((side) => side.containers.length);
  const unit = ` The container is the unit: with ${a} against ${b}`;
  if (Math.min(a, b) < 2)
    return `${unit}, an effect of the source cannot be separated from an effect of the container.`;
  const here = known(permutationP) ? `; here it is ${f.number(permutationP, 3)}` : '';
  return `${unit}, the smallest possible permutation p is ${f.number(leastPermutationP, 3)}${here}.`;
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
