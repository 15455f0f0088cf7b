// Three steps from nothing to a watched container; later the place to add containers and to move sensors.

import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';
import { byId, h, setText } from '../shared/dom.js';
import { connectStep } from './connect.js';
import { heardPart, updateHeard } from './heard.js';
import { newContainerForm } from './new-container.js';
import { placeOf } from '../shared/sensor-place.js';
import { choose, placementForm, updatePlacement } from './placement.js';
import { showPlaced } from './placed.js';
import { texts } from './texts.js';

const REJECTS_EVERY_MS = 5000;
const STEPS = { connect: 'step-connect', make: 'step-make', place: 'step-place' };

/** @param created, placed called with the service's answers; @param opened called when it opens; @param host the section */
export function makeGuide({ host, setup, created, placed, opened }) {
  const rejects = { list: [], timer: null };
  const state = { sensors: new Map(), containers: new Map() };
  const form = placementForm({
    placed: (sensor, output) => {
      placed(sensor);
      showPlaced(sensor, state.containers, output);
    },
  });

  host.append(
    h(
      'div',
      { class: 'guide-head' },
      h('h2', { id: 'guide-title', tabindex: '-1' }),
      h('button', { type: 'button', class: 'plain', id: 'close-guide', on: { click: () => open(false) } }, texts.close),
    ),
    h('p', { id: 'guide-intro' }),
    h(
      'ol',
      { class: 'steps' },
      step('connect', texts.connectASensor, connectStep(setup), heardPart()),
      step(
        'make',
        texts.makeAContainer,
        h('p', { class: 'quiet' }, texts.aBagBoxJarOr),
        newContainerForm((container) => {
          created(container);
          show('place', { container: container.id });
        }),
      ),
      step('place', texts.placeTheSensor, h('p', { class: 'quiet' }, texts.tellWhichSensorLiesIn), form),
    ),
  );

  function open(wanted) {
    const opens = wanted && host.hidden;
    host.hidden = !wanted;
    clearInterval(rejects.timer);
    if (!wanted) return;
    if (opens) opened();
    refresh();
    askRejects();
    rejects.timer = setInterval(askRejects, REJECTS_EVERY_MS);
  }

  /** Asks for messages that could not be read, the usual reason why a new sensor does not show. */
  async function askRejects() {
    try {
      rejects.list = (await api.rejects(20)).rejects ?? [];
      updateHeard(state, rejects.list);
    } catch {
      /* the notice on top tells when the service is away */
    }
  }

  function show(name, chosen = {}) {
    open(true);
    choose(form, chosen);
    const target = byId(STEPS[name]);
    target.scrollIntoView({
      behavior: matchMedia('(prefers-reduced-motion: reduce)').matches ? 'auto' : 'smooth',
      block: 'start',
    });
    target.querySelector('h3').focus({ preventScroll: true });
  }

  /** A guide that is not open is not drawn: its choices list every sensor. */
  function update(sensors, containers) {
    Object.assign(state, { sensors, containers });
    if (!host.hidden) refresh();
  }

  function refresh() {
    const { sensors, containers } = state;
    const empty = containers.size === 0;
    setText(byId('guide-title'), empty ? texts.nothingOnTheShelfYet : texts.addConnectMove);
    setText(byId('guide-intro'), empty ? texts.threeStepsAndTheFirst : '');
    byId('close-guide').hidden = empty;
    const at = now();
    const all = [...sensors.values()];
    mark(
      'connect',
      all.some((sensor) => sensor.lastHeard),
    );
    mark('make', !empty);
    mark(
      'place',
      all.some((sensor) => containers.has(placeOf(sensor, at))),
    );
    updatePlacement(form, state);
    updateHeard(state, rejects.list);
  }

  return { open, show, update };
}

function step(name, title, ...content) {
  return h(
    'li',
    { id: STEPS[name], class: 'step' },
    h('h3', { tabindex: '-1' }, title, h('span', { class: 'step-state' })),
    content,
  );
}

function mark(name, done) {
  const element = byId(STEPS[name]);
  element.classList.toggle('is-done', done);
  setText(element.querySelector('.step-state'), done ? texts.done : '');
}
