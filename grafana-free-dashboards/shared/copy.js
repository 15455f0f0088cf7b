// A button that copies a text.

import { h, setText } from './dom.js';
import { texts } from './texts.js';

export function copyText(text, title) {
  const button = h(
    'button',
    {
      type: 'button',
      on: {
        click: async () => {
          setText(button, (await put(text)) ? texts.copied : texts.selectAndCopyByHand);
          setTimeout(() => setText(button, title), 2500);
        },
      },
    },
    title,
  );
  return button;
}

/** Without TLS browsers offer no clipboard; then the older copy command is used. */
async function put(text) {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    const field = h('textarea', { readonly: true, class: 'unseen' });
    field.value = text;
    document.body.append(field);
    field.select();
    const done = document.execCommand('copy');
    field.remove();
    return done;
  }
}
