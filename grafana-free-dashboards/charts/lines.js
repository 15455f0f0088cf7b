// The charts of several containers, one for each quantity, and the list of what they mark. One container alone is drawn
// with its limits and the spread of its readings.

import { lineStyle } from '../chart-parts/colours.js';
import { edgeOf, pointsOf } from '../chart-parts/load.js';
import { markedOf } from '../chart-parts/marked.js';
import { makePanels } from '../chart-parts/panels.js';
import { oneTimeLine, samplesOf } from '../chart-parts/samples.js';
import { specsOfOne, specsOfSeveral } from '../chart-parts/specs.js';
import { byId } from '../shared/dom.js';

/**
 * @param containers those shown; @param quantities names of charts
 * @param actions onZoom(from, to), onReset(), lead(at, range)
 */
export function makeLines(containers, quantities, actions) {
  const alone = containers.length === 1;
  const specs = alone ? specsOfOne(() => containers[0].band) : specsOfSeveral(containers.length);
  const shown = containers.length === 0 ? [] : quantities;
  const panels = makePanels(Object.fromEntries(shown.map((name) => [name, specs[name]])), 'charts', actions);

  /** Of several containers, each has a lane of bars in the colour of its line. */
  function marksOf(answers, span) {
    const edge = edgeOf(span);
    if (alone) return markedOf(answers[0], edge);
    return answers
      .flatMap((one, i) =>
        markedOf(one, edge).map((mark) => ({ ...mark, name: containers[i].name, lane: i, color: lineStyle(i).color })),
      )
      .sort((a, b) => a.from - b.from);
  }

  return {
    ...panels,
    /** @param answers of the service for each container; @param zone the service's; follows: whether the span ends now */
    show(answers, span, zone, follows) {
      const samples = answers.map((one) => samplesOf(one, span, zone));
      const step = (span.to - span.from) / pointsOf(byId('charts').clientWidth, containers.length);
      panels.show(marksOf(answers, span), (name) => {
        const sets = containers.map((one, i) => ({ name: one.name, columns: samples[i][name] }));
        const columns = alone ? withoutRoom(name, sets[0].columns) : oneTimeLine(sets, step);
        return { sets, columns, range: span, follows };
      });
    },
  };
}

/** The chart of temperature has a line for the room, which this page does not draw. */
const withoutRoom = (name, columns) =>
  name === 'temperature' ? [...columns, new Array(columns[0].length).fill(undefined)] : columns;
