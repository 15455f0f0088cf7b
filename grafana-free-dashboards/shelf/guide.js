// Three steps from nothing to a watched container; later the place to add containers and to move sensors.

import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';
import { announce, byId, h, setText } from '../shared/dom.js';
import { connectStep } from './connect.js';
import { heardPart, updateHeard } from './heard.js';
import { newContainerForm } from './new-container.js';
import { placeOf, placeWords } from '../shared/sensor-place.js';
import { choose, placementForm, updatePlacement } from './placement.js';

const REJECTS_EVERY_MS = 5000;
const STEPS = { connect: 'step-connect', make: 'step-make', place: 'step-place' };

/** @param created, placed called with the service's answers; @param host the section */
export function makeGuide({ host, setup, created, placed }) {
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
      h('button', { type: 'button', class: 'plain', id: 'close-guide', on: { click: () => open(false) } }, 'Close'),
    ),
    h('p', { id: 'guide-intro' }),
    h(
      'ol',
      { class: 'steps' },
      step('connect', 'Connect a sensor', connectStep(setup), heardPart()),
      step(
        'make',
        'Make a container',
        h(
          'p',
          { class: 'quiet' },
          'A bag, box, jar or tray that holds seeds. The figures suit many warm-germinating seeds; change them to yours.',
        ),
        newContainerForm((container) => {
          created(container);
          show('place', { container: container.id });
        }),
      ),
      step(
        'place',
        'Place the sensor',
        h(
          'p',
          { class: 'quiet' },
          'Tell which sensor lies in which container. One sensor outside tells the temperature of the room.',
        ),
        form,
      ),
    ),
  );

  function open(wanted) {
    host.hidden = !wanted;
    clearInterval(rejects.timer);
    if (!wanted) return;
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

  function update(sensors, containers) {
    Object.assign(state, { sensors, containers });
    const empty = containers.size === 0;
    setText(byId('guide-title'), empty ? 'Nothing on the shelf yet' : 'Add, connect, move');
    setText(
      byId('guide-intro'),
      empty ? 'Three steps and the first container is watched. Take them in any order.' : '',
    );
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
    if (!host.hidden) updateHeard(state, rejects.list);
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
  setText(element.querySelector('.step-state'), done ? ' ✓ done' : '');
}

function showPlaced(sensor, containers, output) {
  const words = `${sensor.sensor} is now ${placeWords(placeOf(sensor, now()), containers)}.`;
  output.replaceChildren(h('p', { class: 'done' }, words, ' Its values appear on the Shelf as they come.'));
  announce(words);
}

/** The buttons on top of the shelf open the guide at a step; so does an address with `place`. */
export function connectButtons(guide) {
  for (const button of byId('shelf-actions').querySelectorAll('button')) {
    button.addEventListener('click', () => guide.show(button.dataset.step));
  }
  const wanted = new URLSearchParams(location.search).get('place');
  if (wanted) guide.show('place', { container: wanted });
}
