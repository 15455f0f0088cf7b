// The sheet of one action for many containers: asks for its values, runs it, and shows the results.

import { isOpen, isShelved } from '../shared/alert-words.js';
import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';
import { byId, h, problemBox, setText } from '../shared/dom.js';
import { field, form, typedIn } from '../shared/form.js';
import { fromUnit, unitName } from '../shared/format.js';
import { typedNumber } from '../shared/typed.js';
import { forEach, withLimits } from './bulk-work.js';
import { texts } from './texts.js';
import { ACTIONS } from './words.js';

const number = (name, title, value = '') =>
  field(title, h('input', { name, value, inputmode: 'decimal', autocomplete: 'off' }));

/** For each action: its form fields, the containers or alerts that it applies to, and the call for one of them. */
const WORK = {
  acknowledge: {
    ofAlerts: true,
    fields: () => [],
    items: ({ alerts }) => alerts.filter((alert) => !alert.acknowledged),
    call: (alert) => api.acknowledge(alert.id),
  },
  pause: {
    ofAlerts: true,
    fields: () => number('minutes', texts.minutes, '60'),
    items: ({ alerts }) => alerts.filter((alert) => alert.state === 'active' && !isShelved(alert, now())),
    call: (alert, { minutes }) => api.shelve(alert.id, minutes),
  },
  open: {
    fields: () => number('minutes', texts.minutes, '10'),
    items: ({ containers }) => containers,
    call: async (container, { minutes }) => {
      await api.open(container.id, minutes);
      return api.container(container.id);
    },
  },
  limits: {
    fields: () =>
      h(
        'div',
        { class: 'fields two' },
        number('low', `${texts.notColderThan} (${unitName()})`),
        number('high', `${texts.notHotterThan} (${unitName()})`),
        number('lightHigh', texts.notBrighterThan),
        number('humidityLow', texts.notDrierThan),
      ),
    items: ({ containers }) => containers,
    // Asks anew, since somebody may have changed other settings meanwhile.
    call: async ({ id }, typed) => {
      const limits = { ...typed, low: fromUnit(typed.low), high: fromUnit(typed.high) };
      return api.changeContainer(id, withLimits(await api.container(id), limits));
    },
  },
};

/** The numbers that were typed; null for an empty field. */
function numbers(typed) {
  return Object.fromEntries(
    Object.entries(typed).map(([name, raw]) => {
      const value = raw.trim() === '' ? null : typedNumber(raw);
      if (value !== null && !Number.isFinite(value)) throw new Error(texts.notANumber(raw));
      return [name, value];
    }),
  );
}

/** @param changed, alertChanged called with each changed container or alert */
export function openBulkSheet(name, { containers, alerts, changed, alertChanged }) {
  const words = ACTIONS[name];
  const work = WORK[name];
  const ids = new Set(containers.map((one) => one.id));
  const names = new Map(containers.map((one) => [one.id, one.name]));
  const items = work.items({ containers, alerts: alerts.filter((one) => isOpen(one) && ids.has(one.container)) });
  const sheet = byId('bulk-sheet');
  const close = h('button', { type: 'button', on: { click: () => sheet.close() } }, texts.close);
  const head = [h('h2', { id: 'bulk-title', tabindex: '-1' }, words.title), h('p', {}, words.lead(containers.length))];
  const content =
    items.length === 0
      ? [h('p', { class: 'quiet' }, texts.noOpenAlert), h('div', { class: 'actions' }, close)]
      : [form({ id: 'bulk-form', content: work.fields(), submit: words.submit, other: close, save })];
  sheet.replaceChildren(...head, ...content);
  if (!sheet.open) sheet.showModal();
  byId('bulk-title').focus();

  async function save(element, output) {
    const typed = numbers(typedIn(element));
    const progress = h('p', { role: 'status' });
    output.replaceChildren(progress);
    const { done, failed } = await forEach(
      items,
      (item) => work.call(item, typed),
      (n) => setText(progress, texts.workingOn(n, items.length)),
    );
    for (const one of done) (work.ofAlerts ? alertChanged : changed)(one);
    output.replaceChildren(
      done.length > 0 ? h('p', { class: 'done', role: 'status' }, words.done(done.length)) : '',
      failed.length > 0
        ? problemBox({
            message: texts.notDoneFor(failed.length, items.length),
            problems: failed.map(({ item, message }) => `${names.get(item.container ?? item.id)}: ${message}`),
          })
        : '',
    );
  }
}
