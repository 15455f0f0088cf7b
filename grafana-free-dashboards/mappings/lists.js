// The lists of the page Mapping rules: messages and rules.

import { setAge } from '../shared/ages.js';
import { now } from '../shared/clock.js';
import { actionButton, byId, h, reconcile, setText } from '../shared/dom.js';
import * as t from '../shared/time-format.js';
import { ruleWords } from './rule.js';
import { texts } from './texts.js';

/** The messages that wait for a rule. @param pick called with the topic of the message to read */
export function drawMessages(messages, pick) {
  byId('no-messages').hidden = messages.length > 0;
  reconcile(
    byId('messages'),
    messages,
    ({ topic }) => topic,
    ({ topic }) => {
      const output = h('span', {});
      return h(
        'li',
        { class: 'with-button' },
        h('span', {}, h('code', {}, topic), ' ', h('time', { class: 'age quiet' })),
        h(
          'span',
          {},
          actionButton({}, texts.read, output, () => pick(topic)),
          output,
        ),
      );
    },
    (item, { at }) => setAge(item.querySelector('time'), at, '', `, ${t.moment(at, now())}`),
  );
}

/** All rules. @param remove called with the id of the rule to delete */
export function drawRules({ configured, saved, units, problems }, remove) {
  const rules = [
    ...configured.map((rule) => ({ key: `set ${rule.topic}`, rule, id: null })),
    ...saved.map(({ id, rule }) => ({ key: `saved ${id}`, rule, id })),
  ];
  byId('no-rules').hidden = rules.length > 0;
  reconcile(
    byId('rules'),
    rules,
    ({ key }) => key,
    ({ rule, id }) =>
      h(
        'li',
        { class: 'with-button' },
        h('span', {}, ruleWords(rule, units), h('span', { class: 'caution' })),
        id === null ? h('span', { class: 'quiet' }, texts.inTheSettings) : deleteButton(() => remove(id)),
      ),
    (item, { rule }) => {
      const problem = problems[rule.topic];
      setText(item.querySelector('.caution'), problem ? ` (${problem})` : '');
    },
  );
}

function deleteButton(work) {
  const output = h('span', {});
  return h('span', {}, actionButton({}, texts.deleteWord, output, work), output);
}
