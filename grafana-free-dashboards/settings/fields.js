// The field of one setting.

import { h } from '../shared/dom.js';
import { texts } from './texts.js';

const shown = ({ set, secret, value }) => (set && !secret ? String(value) : '');

/** A select for a setting with a few words; else an input. A secret is typed unseen. */
export function inputOf(setting) {
  const props = { name: setting.name, autocomplete: 'off', spellcheck: 'false', autocapitalize: 'off' };
  if (setting.kind === 'choice') {
    return h(
      'select',
      { name: setting.name },
      ['', ...setting.choices].map((choice) =>
        h(
          'option',
          { value: choice, selected: setting.set && String(setting.value) === choice },
          choice === '' ? texts.standard(setting.default) : choice,
        ),
      ),
    );
  }
  if (setting.secret) return h('input', { ...props, type: 'password', autocomplete: 'new-password' });
  const inputmode = { whole: 'numeric', number: 'decimal' }[setting.kind];
  return h('input', {
    ...props,
    type: 'text',
    inputmode,
    value: shown(setting),
    placeholder: inputmode && setting.default,
  });
}
