// The fields of the rules of one kind of alert: shown, and read back.

import { h } from '../shared/dom.js';
import { differenceFromUnit, differenceToUnit, fromUnit, round, toUnit, unitName } from '../shared/format.js';
import { conditionOf } from '../shared/conditions.js';
import { fieldNumber } from '../shared/typed.js';
import { texts } from './texts.js';

const NUMBERS = {
  limit: (unit) => texts.limit2(unit),
  deadband: (unit) => texts.deadband(unit),
  onDelayMinutes: () => texts.onDelayMin,
  offDelayMinutes: () => texts.offDelayMin,
};
const PRIORITIES = { high: texts.high, medium: texts.medium, low: texts.low };

/**
 * Formats and parses the fields of a rule. In °F, a limit is converted with the offset, and a deadband without it.
 */
function unitOf(rule, field) {
  if (rule.unit !== '°C' || !['limit', 'deadband'].includes(field))
    return { name: rule.unit, show: (value) => value, read: (value) => value };
  const [to, from] = field === 'limit' ? [toUnit, fromUnit] : [differenceToUnit, differenceFromUnit];
  return { name: unitName(), show: (value) => round(to(value), 2), read: from };
}

const shownOf = (rule, field, value) =>
  value === null || value === undefined ? '' : fieldNumber(unitOf(rule, field).show(value));

export function kindFields(kind, rule) {
  const numbers = Object.entries(NUMBERS)
    .filter(([field]) => field !== 'limit' || !rule.limitFromBand)
    .map(([field, title]) => {
      const name = `${kind}.${field}`;
      return h(
        'div',
        { class: 'field' },
        h('label', { for: name }, title(unitOf(rule, field).name)),
        h('input', {
          id: name,
          name,
          type: 'text',
          inputmode: 'decimal',
          autocomplete: 'off',
          value: shownOf(rule, field, rule.overrides[field]),
          placeholder: shownOf(rule, field, rule.defaults[field]),
          data: { group: conditionOf(kind).title },
        }),
      );
    });
  const name = `${kind}.priority`;
  const options = [
    h('option', { value: '' }, texts.defaultWord(PRIORITIES[rule.defaults.priority])),
    ...Object.entries(PRIORITIES).map(([one, words]) =>
      h('option', { value: one, selected: rule.overrides.priority === one }, words),
    ),
  ];
  const service = `${kind}.inService`;
  return h(
    'fieldset',
    {},
    h('legend', {}, conditionOf(kind).title),
    h(
      'div',
      { class: 'fields' },
      numbers,
      h('div', { class: 'field' }, h('label', { for: name }, texts.priority), h('select', { id: name, name }, options)),
      h(
        'div',
        { class: 'field' },
        h('label', { for: service }, texts.raiseThisAlert),
        h(
          'select',
          { id: service, name: service },
          h('option', { value: 'yes', selected: rule.inService }, texts.yes),
          h('option', { value: 'no', selected: !rule.inService }, texts.no),
        ),
      ),
    ),
  );
}

/** The rules that were changed; null stands for the default. `fieldOf` returns a field by its name. */
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
      const text = typed.trim();
      const value = text === '' ? null : Number(text.replace(',', '.'));
      if (Number.isNaN(value)) problems.push(texts.isNotANumber(conditionOf(kind).title, typed));
      else if (text !== shownOf(rule, field, rule.overrides[field]))
        change(kind, field, value === null ? null : unitOf(rule, field).read(value));
    }
    const priority = fieldOf(`${kind}.priority`).value || null;
    if (priority !== (rule.overrides.priority ?? null)) change(kind, 'priority', priority);
    const inService = fieldOf(`${kind}.inService`).value === 'yes';
    if (inService !== rule.inService) change(kind, 'inService', inService);
  }
  return { changes, problems };
}
