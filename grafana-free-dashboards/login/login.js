// Runs the login page.

import { api } from '../shared/api.js';
import { byId, whileBusy } from '../shared/dom.js';
import { loginName, setLoginName } from '../shared/login-name.js';
import { targetOf } from './target.js';

const target = targetOf(globalThis.location.search);

byId('name').value = loginName();
byId('password').focus();
byId('unencrypted').hidden = globalThis.isSecureContext;
api
  .session()
  .then(({ login, name }) => {
    if (!login || name) globalThis.location.replace(target);
  })
  .catch(() => {});

byId('sign-in').addEventListener('submit', (event) => {
  event.preventDefault();
  whileBusy(event.target.querySelector('button'), byId('output'), async () => {
    const { name } = await api.signIn({
      name: byId('name').value,
      password: byId('password').value,
      yearLong: byId('year').checked,
    });
    setLoginName(name);
    globalThis.location.replace(target);
  });
});
