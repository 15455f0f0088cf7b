// When this container's alerts are raised: deadband, delays, priority, and whether a kind is in service.

import { api } from './api.js';
import { h, problemBox, whileBusy } from './dom.js';
import { conditionOf } from './words.js';

const NUMBERS = {
  limit: (unit) => `Limit (${unit})`,
  deadband: (unit) => `Deadband (${unit})`,
  onDelayMinutes: () => 'On-delay (min)',
  offDelayMinutes: () => 'Off-delay (min)',
};
const PRIORITIES = ['high', 'medium', 'low'];

export function alertRules(id) {
  const place = h('div');
  const details = h('details', { id: 'rules', on: { toggle: () => details.open && show(id, place) } }, h('summary', {}, 'Change when alerts are raised'), place);
  if (location.hash === '#rules') {
    details.open = true;
    requestAnimationFrame(() => details.scrollIntoView());
  }
  return details;
}

async function show(id, place) {
  try {
    place.replaceChildren(form(id, place, await api.alertRules(id)));
  } catch (problem) {
    place.replaceChildren(problemBox(problem));
  }
}

function form(id, place, { rules }) {
  const output = h('div', { role: 'status' });
  const button = h('button', { type: 'submit', class: 'main' }, 'Keep these rules');
  const own = h('form', { class: 'form', novalidate: true, on: { submit: (event) => {
    event.preventDefault();
    const { changes, problems } = readRules(rules, (name) => own.elements.namedItem(name));
    if (problems.length > 0) output.replaceChildren(problemBox({ message: 'Please look at this again:', problems }));
    else whileBusy(button, output, async () => {
      await api.changeAlertRules(id, changes);
      await show(id, place);
      place.append(h('p', { class: 'done', role: 'status' }, 'Kept.'));
    });
  } } },
  h('p', { class: 'help' }, 'An empty field means the default, shown in grey. The limits of temperature, humidity and light stand with the band above.'),
  Object.entries(rules).map(([kind, rule]) => kindFields(kind, rule)), output, button);
  return own;
}

function kindFields(kind, rule) {
  const numbers = Object.entries(NUMBERS).filter(([field]) => field !== 'limit' || !rule.limitFromBand).map(([field, title]) => {
    const name = `${kind}.${field}`;
    return h('div', { class: 'field' }, h('label', { for: name }, title(rule.unit)),
      h('input', { id: name, name, type: 'text', inputmode: 'decimal', autocomplete: 'off', value: rule.overrides[field] ?? '', placeholder: rule.defaults[field] }));
  });
  const name = `${kind}.priority`;
  const options = [h('option', { value: '' }, `default (${rule.defaults.priority})`), ...PRIORITIES.map((one) => h('option', { value: one, selected: rule.overrides.priority === one }, one))];
  const service = `${kind}.inService`;
  return h('fieldset', {}, h('legend', {}, conditionOf(kind).title),
    h('div', { class: 'fields' }, numbers,
      h('div', { class: 'field' }, h('label', { for: name }, 'Priority'), h('select', { id: name, name }, options)),
      h('div', { class: 'field' }, h('label', { for: service }, 'In service'),
        h('select', { id: service, name: service }, h('option', { value: 'yes', selected: rule.inService }, 'yes'), h('option', { value: 'no', selected: !rule.inService }, 'no: never raised')))));
}

/** Only what differs from what is in force; null brings back a default. `fieldOf` gives a field by its name. */
export function readRules(rules, fieldOf) {
  const changes = {};
  const problems = [];
  const change = (kind, field, value) => {
    (changes[kind] ??= {})[field] = value;
  };
  for (const [kind, rule] of Object.entries(rules)) {
    for (const field of Object.keys(NUMBERS)) {
      const typed = fieldOf(`${kind}.${field}`)?.value;
      if (typed === undefined) continue;
      const value = typed.trim() === '' ? null : Number(typed.trim().replace(',', '.'));
      if (Number.isNaN(value)) problems.push(`${conditionOf(kind).title}: “${typed}” is not a number.`);
      else if (value !== (rule.overrides[field] ?? null)) change(kind, field, value);
    }
    const priority = fieldOf(`${kind}.priority`).value || null;
    if (priority !== (rule.overrides.priority ?? null)) change(kind, 'priority', priority);
    const inService = fieldOf(`${kind}.inService`).value === 'yes';
    if (inService !== rule.inService) change(kind, 'inService', inService);
  }
  return { changes, problems };
}
