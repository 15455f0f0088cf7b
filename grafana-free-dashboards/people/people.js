// Runs the page People: one's own password and sessions; for owners also people and tokens.

import { api } from '../shared/api.js';
import { byId, h, setOptions, setText, whileBusy } from '../shared/dom.js';
import { startPage, untilItWorks } from '../shared/page.js';
import { showProblem } from '../shared/trouble.js';
import { drawPeople, drawSessions, drawTokens } from './rows.js';
import { ROLES } from './words.js';
import { texts } from './texts.js';

startPage({ current: '/people.html', reload: () => load().catch(showTrouble), redraw: () => {} });
untilItWorks(load, showTrouble).catch(showTrouble);
setOptions(byId('person-role'), ROLES);
setOptions(byId('token-role'), ROLES);

async function load() {
  const session = await api.session();
  drawSessions(await api.sessions(), load);
  if (session.role === 'own') {
    const [people, tokens] = await Promise.all([api.people(), api.tokens()]);
    drawPeople(people, load);
    drawTokens(tokens, load);
  }
  byId('own-name').value = session.name ?? '';
  byId('password-part').hidden = session.name === null;
  byId('sessions-part').hidden = false;
  byId('own-part').hidden = session.role !== 'own';
  setText(document.querySelector('h1'), session.role === 'own' ? texts.people : texts.account);
  byId('loading')?.remove();
}

const onSubmit = (form, output, work) =>
  byId(form).addEventListener('submit', (event) => {
    event.preventDefault();
    whileBusy(event.target.querySelector('button'), byId(output), work);
  });

onSubmit('own-password', 'own-password-output', async () => {
  await api.changePassword({ current: byId('current').value, password: byId('next').value });
  byId('own-password').reset();
  await load();
  byId('own-password-output').replaceChildren(h('p', { class: 'done' }, texts.yourPasswordIsChangedYour));
});

onSubmit('add-person', 'person-output', async () => {
  const name = byId('person-name').value;
  await api.addPerson({ name, role: byId('person-role').value, password: byId('person-password').value });
  byId('add-person').reset();
  await load();
  byId('person-output').replaceChildren(h('p', { class: 'done' }, texts.canSignInNow(name)));
});

onSubmit('add-token', 'token-output', async () => {
  const { secret } = await api.addToken({
    name: byId('token-name').value,
    role: byId('token-role').value,
    days: Number(byId('token-days').value),
  });
  byId('add-token').reset();
  await load();
  byId('token-output').replaceChildren(
    h('div', { class: 'done' }, h('p', {}, texts.copyTheTokenNowIt), h('code', { class: 'secret' }, secret)),
  );
});

function showTrouble(problem) {
  showProblem(byId('loading'), problem);
}
