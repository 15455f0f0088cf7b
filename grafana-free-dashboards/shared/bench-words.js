// The verdict of a comparison of heat in the chosen unit and language. The service has the same sentences in English and
// °C. Pure.

import * as f from './format.js';
import { known } from './text.js';
import { texts } from './texts.js';

const one = (value) => f.number(value, 1);
const heat = (value) => one(f.differenceToUnit(value));

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
