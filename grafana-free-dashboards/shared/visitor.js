// Who is signed in: the menu shows it, and parts of the page that need another role are hidden.

import { loginAddress } from '../login/target.js';
import { api } from './api.js';
import { byId, h, setText } from './dom.js';
import { count } from './format.js';
import { forgetState, unsentCount } from './offline.js';
import { signedInAs } from './who.js';
import { texts } from './texts.js';

const ROLES = ['look', 'tend', 'own'];
const EXPOSED = texts.noLoginEveryoneWhoReaches;

/** True if a role includes the needed one. */
export const includes = (role, needed) => ROLES.indexOf(role) >= ROLES.indexOf(needed);

/**
 * Asks the service who is signed in, and completes the page.
 *
 * The style sheet roles.css hides what the role may not change.
 */
export async function showVisitor() {
  let session;
  try {
    session = await api.session();
  } catch {
    return; // the service is away; the page says so and asks again
  }
  document.body.dataset.role = session.role ?? 'none';
  if (session.exposed) showExposed();
  if (!session.login) return;
  if (session.name === null) {
    showSignedOut();
  } else {
    hideSignedOut();
    signedInAs(session.name);
    showMenu(session);
  }
}

function showExposed() {
  if (byId('exposed') === null) byId('notice').before(h('p', { id: 'exposed', class: 'notice' }, EXPOSED));
}

function showMenu({ name, role }) {
  if (byId('account') !== null) return;
  const current = globalThis.location.pathname === '/people.html' ? 'page' : null;
  const link = h(
    'a',
    { href: '/people.html', id: 'account', 'aria-current': current },
    role === 'own' ? texts.people : texts.account,
  );
  const out = h('button', { type: 'button', id: 'sign-out', class: 'plain', on: { click: signOut } }, texts.signOut);
  out.title = texts.signedInAs(name);
  byId('pages')
    .querySelector('ul')
    .append(h('li', {}, link), h('li', {}, out));
}

/** Entries that wait on this device would be sent in the name of the next person, so they must be sent before. */
async function signOut() {
  const waiting = unsentCount();
  if (waiting > 0) {
    tell(texts.sendOrDiscardFirst(count(waiting, texts.entryCount)));
    return;
  }
  await forgetState();
  try {
    await api.signOut();
  } catch (problem) {
    if (problem.unreachable) {
      tell(texts.stillSignedIn);
      return;
    }
  }
  globalThis.location.assign('/login.html');
}

function tell(words) {
  const notice = byId('sign-out-trouble') ?? h('p', { id: 'sign-out-trouble', class: 'notice', role: 'alert' });
  setText(notice, words);
  byId('notice').before(notice);
}

/** Says that the session has ended, with a link to the login page. The page stays, with its typed text. */
export function showSignedOut() {
  const notice =
    byId('signed-out') ??
    h('p', { id: 'signed-out', class: 'notice', role: 'status' }, h('span', {}), ' ', h('a', {}, texts.signIn));
  setText(notice.querySelector('span'), texts.youAreSignedOut);
  notice.querySelector('a').href = loginAddress(globalThis.location);
  byId('notice').before(notice);
}

function hideSignedOut() {
  byId('signed-out')?.remove();
}

globalThis.addEventListener?.('signed-out', showSignedOut);
