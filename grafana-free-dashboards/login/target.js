// The page to open after the sign-in.

/** Stands for this service while an address is parsed. */
const OWN = 'http://own.invalid';

/**
 * The address in the query of the login page; the Shelf for anything that is not a page of this service.
 * @param search the query, such as '?to=%2Falerts.html'
 */
export function targetOf(search) {
  const to = new URLSearchParams(search).get('to') ?? '/';
  try {
    const { origin, pathname, search: query, hash } = new URL(to, OWN);
    return origin === OWN && pathname !== '/login.html' ? pathname + query + hash : '/';
  } catch {
    return '/';
  }
}

/** The login page, with the address to come back to. */
export const loginAddress = ({ pathname, search, hash }) =>
  `/login.html?to=${encodeURIComponent(pathname + search + hash)}`;
