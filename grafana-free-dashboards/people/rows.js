// The lists of the page People: sessions, tokens, people. Each calls `load` after a change.

import { api } from '../shared/api.js';
import { now } from '../shared/clock.js';
import { actionButton, byId, h, reconcile, setOptions, setText, whileBusy } from '../shared/dom.js';
import { ROLES, guessWords, sessionWords, tokenWords } from './words.js';
import { texts } from './texts.js';

export function drawSessions(sessions, load) {
  byId('no-sessions').hidden = sessions.length > 0;
  reconcile(
    byId('sessions'),
    sessions,
    ({ id }) => id,
    ({ id, current }) => withButton(current ? null : texts.end, () => api.endSession(id), load),
    (item, session) =>
      setText(item.firstChild, `${session.current ? texts.thisBrowser : ''}${sessionWords(session, now())}`),
  );
}

export function drawTokens(tokens, load) {
  byId('no-tokens').hidden = tokens.length > 0;
  reconcile(
    byId('tokens'),
    tokens,
    ({ id }) => id,
    ({ id }) => withButton(texts.remove, () => api.removeToken(id), load),
    (item, token) => setText(item.firstChild, tokenWords(token, now())),
  );
}

/** A row with a text and a button that changes something. */
function withButton(words, work, load) {
  const output = h('span', { role: 'status' });
  const act = async () => {
    await work();
    await load();
  };
  const button = words === null ? null : actionButton({}, words, output, act);
  return h('li', { class: 'with-button' }, h('span', {}), h('span', {}, button, output));
}

export function drawPeople({ people, wrongPasswords }, load) {
  setText(byId('wrong-passwords'), guessWords(wrongPasswords, now()));
  reconcile(
    byId('people'),
    people,
    ({ id }) => id,
    (person) => makePerson(person, load),
    (item, { role }) => {
      item.querySelector('select').value = role;
    },
  );
}

function makePerson({ id, name }, load) {
  const output = h('div', { class: 'wide', role: 'status' });
  const role = h('select', { 'aria-label': texts.roleOf(name) });
  setOptions(role, ROLES);
  role.addEventListener('change', () =>
    whileBusy(role, output, async () => {
      try {
        await api.changePerson(id, { role: role.value });
      } finally {
        await load();
      }
    }),
  );
  const remove = actionButton({ 'aria-label': texts.remove2(name) }, texts.remove, output, async () => {
    await api.removePerson(id);
    await load();
  });
  return h(
    'li',
    {},
    h('div', { class: 'person' }, h('strong', {}, name), role, remove, newPassword(id, name, load), output),
  );
}

function newPassword(id, name, load) {
  const input = h('input', { type: 'password', autocomplete: 'new-password', 'aria-label': texts.newPasswordOf(name) });
  const output = h('div', { role: 'status' });
  const save = actionButton({}, texts.setPassword, output, async () => {
    await api.changePerson(id, { password: input.value });
    input.value = '';
    await load();
    output.replaceChildren(h('p', { class: 'done' }, texts.thePasswordOfIsSet(name)));
  });
  return h(
    'details',
    { class: 'wide' },
    h('summary', {}, texts.newPassword),
    h('div', { class: 'fields' }, input, h('div', { class: 'actions' }, save)),
    output,
  );
}
