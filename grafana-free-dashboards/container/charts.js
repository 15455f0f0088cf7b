// The charts of a container: temperature, humidity, light, rarer quantities, heat so far. They share one stretch of
// time and one cursor; below stands what they mark.

import { markedOf } from '../chart-parts/marked.js';
import { edgeOf } from '../chart-parts/load.js';
import { makePanels } from '../chart-parts/panels.js';
import { samplesOf } from '../chart-parts/samples.js';
import { specsOfOne } from '../chart-parts/specs.js';
import { byId, setText } from '../shared/dom.js';
import * as f from '../shared/format.js';
import { columnsOf, join } from '../shared/series.js';
import { texts } from './texts.js';

/**
 * @param container gives the newest state of it
 * @param actions onZoom(from, to), onReset(), lead(at, range): shows the range and points at the moment
 */
export function makeCharts({ container, ...actions }) {
  const panels = makePanels(
    specsOfOne(() => container().band),
    'course',
    actions,
  );
  setText(byId('mark-key'), texts.lettersAboveTheChartsC);
  return {
    ...panels,
    /** @param data answers of the service for this range; @param zone the service's; follows: whether the range ends now */
    show(data, range, zone, follows) {
      const samples = samplesOf(data, range, zone);
      const room = columnsOf(data.room?.temperature, f.toUnit);
      panels.show(markedOf(data, edgeOf(range)), (name) => {
        const columns = samples[name];
        const isWarmth = name === 'temperature';
        const also = isWarmth && room[0].length > 0 ? { name: texts.room, columns: room } : null;
        return {
          sets: [{ name: container().name, columns, also }],
          columns: isWarmth ? join(columns, room.slice(0, 2)) : columns,
          range,
          follows,
        };
      });
    },
  };
}
