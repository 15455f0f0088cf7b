// The form for a new container on the shelf.

import { api } from '../shared/api.js';
import { containerForm } from '../shared/container-form.js';
import { containerLink } from '../shared/container-link.js';
import { h } from '../shared/dom.js';
import { texts } from './texts.js';

/** @param made called with the new container */
export function newContainerForm(made) {
  return containerForm({
    id: 'new-container',
    submit: texts.makeTheContainer,
    save: async (body, newForm) => {
      const container = await api.createContainer(body);
      newForm.reset();
      const link = h('a', { href: containerLink(container.id) }, container.name);
      newForm
        .querySelector('.output')
        .replaceChildren(h('p', { class: 'done', role: 'status' }, texts.made, link, texts.nextPlaceASensorIn));
      made(container);
    },
  });
}
