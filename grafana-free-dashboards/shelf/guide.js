// Three steps from nothing to a watched container; later the place to add containers and to move sensors.

import { api } from '../shared/api.js';
import { byId, h, reconcile, setAge, setText, announce } from '../shared/dom.js';
import { now } from '../shared/clock.js';
import { containerForm } from '../shared/container-form.js';
import { choose, placementForm, placeOf, placeWords, updatePlacement } from './placement.js';
import { connectStep } from './connect.js';
import { containerLink } from '../shared/card.js';
import { latestWords } from '../shared/latest-words.js';
import { remedyFor } from '../shared/words.js';

const REJECTS_EVERY_MS = 5000;
const STEPS = { connect: 'step-connect', make: 'step-make', place: 'step-place' };

/** @param created, placed called with the service's answers; @param host the section */
export function makeGuide({ host, setup, created, placed }) {
  const rejects = { list: [], timer: null };
  const state = { sensors: new Map(), containers: new Map() };
  const form = placementForm({
    placed: (sensor, output) => {
      placed(sensor);
      showPlaced(sensor, output);
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
        makeForm(),
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

  function makeForm() {
    return containerForm({
      id: 'new-container',
      submit: 'Make the container',
      save: async (body, newForm) => {
        const container = await api.createContainer(body);
        created(container);
        newForm.reset();
        choose(form, { container: container.id });
        const link = h('a', { href: containerLink(container.id) }, container.name);
        newForm
          .querySelector('.output')
          .replaceChildren(h('p', { class: 'done', role: 'status' }, 'Made: ', link, '. Next: place a sensor in it.'));
        show('place');
      },
    });
  }

  function showPlaced(sensor, output) {
    const words = `${sensor.sensor} is now ${placeWords(placeOf(sensor, now()), state.containers)}.`;
    output.replaceChildren(h('p', { class: 'done' }, words, ' Its values appear on the Shelf as they come.'));
    announce(words);
  }

  function open(wanted) {
    host.hidden = !wanted;
    clearInterval(rejects.timer);
    if (!wanted) return;
    askRejects();
    rejects.timer = setInterval(askRejects, REJECTS_EVERY_MS);
  }

  /** What could not be read matters most here: it is why a newcomer sees nothing. */
  async function askRejects() {
    try {
      rejects.list = (await api.rejects(20)).rejects ?? [];
      updateHeard();
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
    mark(
      'connect',
      [...sensors.values()].some((sensor) => sensor.lastHeard),
    );
    mark('make', !empty);
    mark(
      'place',
      [...sensors.values()].some((sensor) => containers.has(placeOf(sensor, at))),
    );
    updatePlacement(form, state);
    if (!host.hidden) updateHeard();
  }

  function updateHeard() {
    const at = now();
    const heard = [...state.sensors.values()]
      .filter((sensor) => sensor.lastHeard || sensor.uncertain)
      .sort((a, b) => Date.parse(b.lastHeard ?? 0) - Date.parse(a.lastHeard ?? 0));
    reconcile(
      byId('heard'),
      heard,
      (sensor) => sensor.sensor,
      makeHeard,
      (item, sensor) => updateHeardItem(item, sensor, state.containers, at),
    );
    reconcile(
      byId('not-read'),
      newestByTopic(rejects.list),
      (reject) => reject.topic + reject.reason,
      makeReject,
      (item, reject) => setAge(item.querySelector('time'), reject.at),
    );
    byId('heard-nothing').hidden = heard.length > 0;
    byId('not-read-part').hidden = rejects.list.length === 0;
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

function heardPart() {
  return h(
    'div',
    { class: 'heard' },
    h('h4', {}, 'Heard so far'),
    h('p', { id: 'heard-nothing', class: 'waiting' }, 'Nothing yet. This list fills by itself as messages arrive.'),
    h('ul', { id: 'heard', class: 'rows', 'aria-live': 'polite' }),
    h(
      'div',
      { id: 'not-read-part', hidden: true },
      h('h4', {}, 'Came, but could not be read'),
      h('ul', { id: 'not-read', class: 'rows' }),
      h('p', {}, h('a', { href: '/rejects.html' }, 'All that could not be read')),
    ),
  );
}

function makeHeard(sensor) {
  return h(
    'li',
    { data: { sensor: sensor.sensor } },
    h('strong', {}, sensor.sensor),
    ' ',
    h('span', { class: 'what' }),
    ' ',
    h('time', { class: 'age' }),
    ' ',
    h('span', { class: 'where quiet' }),
  );
}

function updateHeardItem(item, sensor, containers, at) {
  setText(item.querySelector('.what'), latestWords(sensor));
  setAge(item.querySelector('time'), sensor.lastHeard);
  setText(item.querySelector('.where'), placeWords(placeOf(sensor, at), containers));
}

/** A device that fails every ten seconds should not push everything else off the list. */
function newestByTopic(list) {
  const seen = new Map();
  for (const reject of list)
    if (!seen.has(reject.topic + reject.reason)) seen.set(reject.topic + reject.reason, reject);
  return [...seen.values()].slice(0, 5);
}

function makeReject(reject) {
  return h(
    'li',
    { class: 'reject' },
    h('code', {}, reject.topic),
    ' ',
    h('time', { class: 'age' }),
    h('p', {}, reject.reason),
    h('p', { class: 'quiet' }, remedyFor(reject)),
  );
}
