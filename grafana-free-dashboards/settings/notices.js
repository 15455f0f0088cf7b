// The forms for notices by e-mail and to a web address: fill in, try, save.

import { api } from '../shared/api.js';
import { actionButton, h } from '../shared/dom.js';
import { field, form } from '../shared/form.js';
import { inputOf } from './fields.js';
import { texts } from './texts.js';
import { placeWords, typedValue } from './words.js';

const OPTIONAL = ['notices.email.escalateTo', 'notices.webhook.secret'];

/**
 * Draws the form of one section.
 * @param settings all settings @param prefix of the section, such as `notices.email.`
 * @param changed gets the answer of the service after a change
 */
export function drawSection(place, settings, prefix, changed) {
  const section = settings.filter(({ name }) => name.startsWith(prefix));
  const above = section.find((one) => one.set && one.place !== 'page');
  if (above) {
    place.replaceChildren(h('p', {}, texts.setElsewhere(placeWords(above))));
    return;
  }
  const fields = section.filter(({ changeable }) => changeable);
  const output = h('div', { class: 'output', role: 'status' });
  const typed = () =>
    Object.fromEntries(
      fields
        .map((one) => [one.name, typedValue(one, element.elements[one.name].value), one])
        // An empty field of a stored secret keeps it.
        .filter(([, value, one]) => value !== null || !one.secret)
        .map(([name, value]) => [name, value]),
    );
  const finish = (answer, words) => {
    changed(answer);
    drawSection(place, answer.settings, prefix, changed);
    place.querySelector('.output').replaceChildren(h('p', { class: 'done' }, words));
  };
  const turnOff = async () => {
    const none = Object.fromEntries(section.filter(({ set }) => set).map(({ name }) => [name, null]));
    finish(await api.changeSettings(none), texts.turnedOff);
  };
  const element = form({
    content: h('div', { class: 'fields' }, fields.map(fieldOf)),
    submit: texts.save,
    output,
    save: async () => finish(await api.changeSettings(typed()), texts.saved),
    other: [
      section.some(({ set }) => set) && actionButton({}, texts.turnOff, output, turnOff),
      actionButton({}, texts.sendATest, output, () => sendTest(typed(), output)),
    ],
  });
  place.replaceChildren(element);
}

async function sendTest(changes, output) {
  output.replaceChildren(h('p', { class: 'quiet' }, texts.sending));
  const trials = await api.trySettings(changes);
  const line = ({ target, delivered, words }) =>
    h('li', {}, delivered ? texts.arrived(target, words) : texts.didNotArrive(target, words));
  output.replaceChildren(
    trials.length > 0 ? h('ul', { class: 'trials' }, trials.map(line)) : h('p', {}, texts.nothingToTry),
  );
}

function fieldOf(setting) {
  const help = [
    setting.secret && setting.set && texts.keptIfEmpty,
    setting.name === 'notices.email.to' && texts.severalWithCommas,
    OPTIONAL.includes(setting.name) && texts.optional,
  ];
  return field(texts.fields[setting.name], inputOf(setting), help.filter(Boolean).join(' '));
}
