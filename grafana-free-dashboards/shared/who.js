// The name of the person at this device, recorded with acknowledgements and shelvings. Kept in this browser.

const KEY = 'tepidarium.who';
const MOST_CHARACTERS = 60;

let name = remembered();

function remembered() {
  try {
    return globalThis.localStorage?.getItem(KEY) ?? '';
  } catch {
    return ''; // storage may be forbidden; the name then lasts as long as the page
  }
}

let signedIn = null;

/** Sets the person who is signed in. The service then records this name, whatever the browser remembers. */
export function signedInAs(person) {
  signedIn = person;
}

/** Undefined where nobody gave a name: the record then says 'somebody'. */
export const who = () => signedIn ?? (name === '' ? undefined : name);

export function setWho(typed) {
  name = typed.trim().slice(0, MOST_CHARACTERS);
  try {
    globalThis.localStorage?.setItem(KEY, name);
  } catch {
    /* see above */
  }
}
