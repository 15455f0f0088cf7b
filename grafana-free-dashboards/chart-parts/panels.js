// The charts of a page, which share one stretch of time and one cursor, and the list of what they mark.

import { byId } from '../shared/dom.js';
import { isOn } from './marked.js';
import { makeMarkedList } from './marked-list.js';
import { makePanel } from './panel.js';

/**
 * @param specs of the charts by name; @param sync name that charts with one cursor share
 * @param actions onZoom(from, to), onReset(), lead(at, range): shows the range and points at the moment
 */
export function makePanels(specs, sync, { onZoom, onReset, lead }) {
  const panels = Object.entries(specs).map(([name, spec]) => makePanel(name, spec, { onZoom, onReset, sync }));
  byId('charts').replaceChildren(...panels.map((panel) => panel.element));
  const list = makeMarkedList(byId('marked'), lead);
  return {
    /** @param ofPanel gives what the chart of a name shows, but for the marks */
    show(marks, ofPanel) {
      for (const panel of panels)
        panel.show({ ...ofPanel(panel.name), marks: marks.filter((mark) => isOn(panel.name, mark)) });
      list.show(marks);
    },
    zoom: (range) => panels.forEach((panel) => panel.zoom(range)),
    pointAt: (at) => panels.forEach((panel) => panel.pointAt(at)),
    destroy: () => panels.forEach((panel) => panel.destroy()),
  };
}
