// The verdicts of the heat bench in the chosen unit and language. The service has the same sentences in English and °C.
// Pure.

import * as f from '../shared/format.js';
import { texts } from './texts.js';

const one = (value) => f.number(value, 1);
const heat = (value) => one(f.differenceToUnit(value));
const degrees = (celsius) => one(f.toUnit(celsius));
const known = (value) => value !== null && value !== undefined;

/** One decimal, or none for a whole number. */
const plain = (value) => f.number(value, Math.abs(value - Math.round(value)) < 1e-9 ? 0 : 1);

/** The whole comparison. */
export const comparisonSentence = (answer) =>
  answer.pairs.length === 1 ? pairSentence(answer, answer.pairs[0]) : pairsSentence(answer.pairs);

function pairsSentence(pairs) {
  const differ = pairs.filter(({ finding }) => finding === 'more' || finding === 'less').length;
  const shown = differ === 0 ? texts.nonePairs : differ === pairs.length ? texts.allPairs : f.number(differ);
  return texts.pairsDiffer(shown, f.number(pairs.length), differ === 1);
}

/** Fewer days have no interval; the service has the same bound. */
const LEAST_DAYS = 4;

/** A difference that chance makes more often than this can be chance. */
const MAX_P = 0.05;

/** One pair in a sentence or two. Names the side with more heat first. */
export function pairSentence(answer, pair) {
  const sides = [pair.first, pair.second].map((key) => answer.compared.find((side) => side.key === key));
  const [a, b] = sides.map((side) => side.name);
  const gain = pair.differences.degreeHoursPerDay;
  if (!gain || !known(gain.low) || !known(gain.high))
    return texts.tooFewHours(a, b, f.number(pair.pairedHours), LEAST_DAYS);
  const unit = texts.hADay(f.unitName());
  const [more, less] = gain.value > 0 ? [a, b] : [b, a];
  const difference = texts.gaveMoreThan(more, heat(Math.abs(gain.value)), unit, less);
  switch (pair.finding) {
    case 'more':
    case 'less':
      return `${difference}.${chanceWords(pair, sides)}`;
    case 'none-shown':
      return (
        texts.noClearDifferenceInHeat(a, b, heat(gain.low), heat(gain.high), unit) +
        texts.theErrorOfTheirSensors(heat(pair.sensorError), unit)
      );
    case 'within-sensor-error':
      return (
        texts.butTheirSensorsMayBe(difference, heat(pair.sensorError), unit) +
        texts.swapAndMeasureAgain(
          answer.by === 'sources' ? texts.aSensorOfWithOne(a, b) : texts.theSensorOfWithThat(a, b),
        )
      );
    case 'only-these-containers':
      return texts.thatCanBeDueTo(difference, smaller(sides));
    default:
      return '';
  }
}

/** Whether chance explains the difference of two heat sources; empty between two containers. */
function chanceWords({ permutationP, leastPermutationP }, sides) {
  if (!known(leastPermutationP)) return '';
  const [a, b] = sides.map((side) => side.containers.length);
  const counts = texts.withAndContainers(a, b);
  if (Math.min(a, b) < 2) return texts.itCanBeDueTo(counts, smaller(sides));
  if (!known(permutationP) || permutationP > MAX_P) return texts.thatCanStillBeChance(counts, smaller(sides));
  return texts.chanceAloneDoesThatIn(counts, one(100 * permutationP));
}

/** The side with fewer containers; both if they have equally many. */
function smaller([a, b]) {
  if (a.containers.length === b.containers.length) return texts.each;
  return a.containers.length < b.containers.length ? a.name : b.name;
}

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
