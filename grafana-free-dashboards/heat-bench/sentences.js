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
      return `No difference in heat between ${a} and ${b} that these hours can show: it is ${heat(gain.value)} ${unit} (95 %: ${heat(gain.low)} to ${heat(gain.high)}).`;
    case 'within-sensor-error':
      return `${difference}, but their sensors may be off by as much (±${heat(pair.sensorError)} ${unit}): swap the sensors to find out.`;
    case 'only-these-containers':
      return `${difference}, but only these containers can be said to differ.${containerWords(pair, sides)}`;
    default:
      return pair.words;
  }
}

/** Says how far the number of containers supports the comparison. */
function containerWords({ permutationP, leastPermutationP }, sides) {
  if (!known(leastPermutationP)) return '';
  const [a, b] = sides.map((side) => side.containers.length);
  const unit = ` The container is the unit: with ${a} against ${b}`;
  if (Math.min(a, b) < 2) return `${unit}, a source cannot be told from the place it warms.`;
  const here = known(permutationP) ? `; here it is ${f.number(permutationP, 3)}` : '';
  return `${unit} no permutation p can be under ${f.number(leastPermutationP, 3)}${here}.`;
}

/** The result of a trial, or why there is none. */
export function trialSentence(trial) {
  switch (trial.outcome) {
    case 'told':
      return toldSentence(trial);
    case 'room-too-steady':
      return (
        `It cannot be told from these hours how cold a room this place can bear: the room stayed between ${degrees(trial.roomMin)} and ${degrees(trial.roomMax)} ${f.unitName()}, ` +
        'too steady to see how the place follows it. Try again over colder nights, or let the room cool for some hours.'
      );
    case 'regulated':
      return (
        `Something regulates this place: it follows the room (${degrees(trial.roomMin)} to ${degrees(trial.roomMax)} ${f.unitName()}) less than a plain heater would. ` +
        'How cold a room it can bear cannot be told from these hours, since the heater was never at its limit.'
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
    ? ' On the average of the trial it was below that already.'
    : ` In a room ${plain(f.differenceToUnit(low.colderBy))} ${f.unitName()} colder still, that takes ${one(hoursToFall.value)} hours (${one(hoursToFall.low)} to ${one(hoursToFall.high)}).`;
  const failure = !hoursWithoutHeat
    ? ''
    : ` If the heat fails in the room as it was, it falls below ${limit} after ${one(hoursWithoutHeat.value)} hours (${one(hoursWithoutHeat.low)} to ${one(hoursWithoutHeat.high)}).`;
  return first + fall + failure;
}
