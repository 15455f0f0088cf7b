// The name of the person who last signed in with this browser, filled in on the login page.

const KEY = 'tepidarium.login';
const FIRST_PERSON = 'owner';

export function loginName() {
  try {
    return globalThis.localStorage?.getItem(KEY) ?? FIRST_PERSON;
  } catch {
    return FIRST_PERSON; // storage may be forbidden
  }
}

export function setLoginName(name) {
  try {
    globalThis.localStorage?.setItem(KEY, name);
  } catch {
    /* see above */
  }
}
