// Entries that were written down but have not reached the service yet: kept in the browser, sent in order, once.

const SEND_AGAIN_MS = 4000;
const STORE = 'tepidarium.unsent';

/** Asked at each use, because the mere access may be forbidden. */
export const browserStorage = {
  getItem: (key) => localStorage.getItem(key),
  setItem: (key, value) => localStorage.setItem(key, value),
};

/** A random UUID (RFC 9562, version 4) also on pages that came without TLS, where browsers offer none ready-made. */
export function uuid(bytes = crypto.getRandomValues(new Uint8Array(16))) {
  const own = Uint8Array.from(bytes);
  own[6] = (own[6] & 0x0f) | 0x40;
  own[8] = (own[8] & 0x3f) | 0x80;
  const hex = [...own].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5');
}

/**
 * The queue. What is in it survives a reload; where the browser forbids storage it lasts as long as the page.
 * @param storage like localStorage; @param send(entry) resolves when the service has taken it
 * @param changed called after every change; @param sent(entry, answer) called for each that arrived
 */
export function makeUnsent({ storage, send, changed = () => {}, sent = () => {} }) {
  let memory = [];
  let running = null;

  /** Read afresh each time, since another tab may have sent some meanwhile. */
  function list() {
    try {
      memory = JSON.parse(storage.getItem(STORE) ?? '[]');
    } catch {
      /* forbidden or broken: what this page knows */
    }
    return memory;
  }

  function keep(entries) {
    memory = entries;
    let kept = true;
    try {
      storage.setItem(STORE, JSON.stringify(entries));
    } catch {
      kept = false;
    }
    changed();
    return kept;
  }

  const find = (key) => list().find((entry) => entry.key === key);
  const discard = (key) => keep(list().filter((entry) => entry.key !== key));
  const refuse = (key, message) =>
    keep(list().map((entry) => (entry.key === key ? { ...entry, refused: message } : entry)));

  /** Sends all that wait; stops at the first that the service does not answer, since their order matters. */
  function flush() {
    running ??= run().finally(() => {
      running = null;
    });
    return running;
  }

  async function run() {
    const answers = new Map();
    for (let next = waiting(); next; next = waiting()) {
      try {
        const answer = await send(next);
        answers.set(next.key, answer);
        discard(next.key);
        sent(next, answer);
      } catch (problem) {
        if (problem.unreachable || problem.status >= 500) return answers;
        refuse(next.key, problem.message);
      }
    }
    return answers;
  }

  const waiting = () => list().find((entry) => !entry.refused);

  /**
   * Keeps an entry and sends it as soon as may be.
   * @param entry path, body and whatever helps to show it
   * @return its state: sent with the service's answer, waiting, or refused with its message
   */
  async function add(entry) {
    const key = uuid();
    keep([...list(), { ...entry, key, body: { ...entry.body, entry: key } }]);
    let answers = await flush();
    // A round that was under way may have ended just before it saw this one.
    if (!answers.has(key) && find(key) && !find(key).refused) answers = await flush();
    const left = find(key);
    if (!left) return { key, state: 'sent', answer: answers.get(key) ?? null };
    return left.refused ? { key, state: 'refused', message: left.refused } : { key, state: 'waiting' };
  }

  /** Sends from now on whatever waits, as soon as the service answers. */
  function keepSending() {
    setInterval(flush, SEND_AGAIN_MS);
    addEventListener('online', flush);
  }

  return { add, flush, keepSending, list, discard };
}

/** How a seed group stands once the checks that still wait are counted in. */
export function withUnsent(group, entries) {
  const counted = { ...group };
  for (const { body, group: id, kind, refused } of entries) {
    if (refused || id !== group.id || kind !== 'check') continue;
    const culled = (germinated) =>
      (body.culled ?? [])
        .filter((line) => Boolean(line.germinated) === germinated)
        .reduce((sum, line) => sum + line.count, 0);
    counted.ungerminated -= (body.germinated ?? 0) + culled(false);
    counted.germinated += (body.germinated ?? 0) - culled(true) - (body.pottedOn ?? 0);
    counted.culled += culled(false) + culled(true);
    counted.potted += body.pottedOn ?? 0;
    if ('notLookedAt' in counted) counted.notLookedAt = 0;
  }
  return counted;
}
