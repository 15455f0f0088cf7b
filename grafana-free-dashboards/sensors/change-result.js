// Shows what a change of placement did: the figures before and after, and a button that undoes it.

import { api } from '../shared/api.js';
import { actionButton, h, table } from '../shared/dom.js';
import { nameOf } from '../shared/sensor-place.js';
import { CHANGE_COLUMNS, changeVerdict } from './change-words.js';
import { listed } from '../shared/text.js';
import { texts } from './texts.js';

export function makeChangeResult(known) {
  const element = h('div', { id: 'change-result', role: 'status', tabindex: '-1' });
  let shown = null;

  /**
   * Runs a change and shows it.
   * @param keys the sensors whose placements it changes
   * @param done a sentence that says what was done
   */
  async function run(keys, done, change) {
    const before = keys.map((key) => known.sensors.get(key));
    const answer = await change();
    known.changed([answer.sensor, ...answer.others]);
    shown = { done, containers: answer.containers, before };
    draw();
    element.focus();
    element.scrollIntoView({ block: 'nearest' });
  }

  function draw() {
    if (shown === null) return;
    const { done, containers, before } = shown;
    const output = h('span');
    element.replaceChildren(
      h('p', { class: 'done' }, changeVerdict(done, containers)),
      containers.length === 0 ? '' : h('div', { class: 'table-place' }, table('', CHANGE_COLUMNS, containers)),
      before.length === 0
        ? ''
        : h(
            'p',
            {},
            actionButton({ class: 'plain' }, texts.undo, output, () => undo(before)),
            output,
          ),
    );
  }

  /** Restores the placements, the last changed sensor first, so that no two placements overlap. */
  async function undo(before) {
    const containers = new Map();
    for (const sensor of [...before].reverse()) {
      const answer = await api.correctPlacements(sensor.sensor, sensor.placements);
      let now = answer.sensor;
      if (!sensor.retired && now.retired) now = (await api.unretireSensor(sensor.sensor)).sensor;
      if (sensor.retired && !now.retired)
        now = (await api.retireSensor(sensor.sensor, { from: sensor.retired })).sensor;
      known.changed([now]);
      for (const one of answer.containers) {
        containers.set(one.container, { ...one, before: containers.get(one.container)?.before ?? one.before });
      }
    }
    const names = listed(before.map(nameOf));
    shown = { done: texts.undoneIsPlacedAsBefore(names), containers: [...containers.values()], before: [] };
    draw();
  }

  return { element, run, redraw: draw };
}
