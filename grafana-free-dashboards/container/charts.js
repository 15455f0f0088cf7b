// The charts of a container: temperature, humidity, light, rarer quantities, heat so far. They share one stretch of
// time and one cursor; below stands what they mark.

import { isOn, markedOf } from '../chart-parts/marked.js';
import { makeMarkedList } from '../chart-parts/marked-list.js';
import { edgeOf } from '../chart-parts/load.js';
import { makePanel } from '../chart-parts/panel.js';
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
export function makeCharts({ container, onZoom, onReset, lead }) {
  const specs = specsOfOne(() => container().band);
  const panels = Object.entries(specs).map(([name, spec]) =>
    makePanel(name, spec, { onZoom, onReset, sync: 'course' }),
  );
  byId('charts').replaceChildren(...panels.map((panel) => panel.element));
  const list = makeMarkedList(byId('marked'), lead);
  setText(byId('mark-key'), texts.lettersAboveTheChartsC);
  return {
    /** @param data answers of the service for this range; @param zone the service's; follows: whether the range ends now */
    show(data, range, zone, follows) {
      const samples = samplesOf(data, range, zone);
      const room = columnsOf(data.room?.temperature, f.toUnit);
      const marks = markedOf(data, edgeOf(range));
      for (const panel of panels) {
        const columns = samples[panel.name];
        const isWarmth = panel.name === 'temperature';
        const also = isWarmth && room[0].length > 0 ? { name: texts.room, columns: room } : null;
        panel.show({
          sets: [{ name: container().name, columns, also }],
          columns: isWarmth ? join(columns, room.slice(0, 2)) : columns,
          range,
          follows,
          marks: marks.filter((mark) => isOn(panel.name, mark)),
        });
      }
      list.show(marks);
    },
    zoom: (range) => panels.forEach((panel) => panel.zoom(range)),
    pointAt: (at) => panels.forEach((panel) => panel.pointAt(at)),
    destroy: () => panels.forEach((panel) => panel.destroy()),
  };
}
