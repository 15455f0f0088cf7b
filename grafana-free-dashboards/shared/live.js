// The live stream with reconnection and a check for silence. A browser's EventSource does not reconnect after an HTTP
// error, and cannot see heartbeat comments.

const FIRST_WAIT_MS = 1000;
const LONGEST_WAIT_MS = 15_000;
const QUIET_MS = 25_000;
const LOOK_EVERY_MS = 5000;

/**
 * @param handlers event name to function of its parsed data
 * @param onState called with 'connecting', 'live' or 'down' at each change; 'live' also after each reconnection,
 *   and the page must then fetch afresh, for what happened in between was not sent
 * @param probe resolves if the service answers; asked when the line has been quiet for long
 * @param refusal resolves to the service's reason for refusing the stream, or null; an EventSource cannot see it. The
 *   reason goes to onState as the second argument of another 'down'
 */
export function liveStream({ url = '/api/live', handlers, onState, probe, refusal, Source = globalThis.EventSource }) {
  let source = null;
  let waitMs = FIRST_WAIT_MS;
  let timer = null;
  let state = null;
  let lastHeard = Date.now();
  let probing = false;

  const say = (next) => {
    if (state === next) return;
    state = next;
    onState(next);
  };

  function connect() {
    clearTimeout(timer);
    source?.close();
    source = new Source(url);
    source.onopen = () => {
      waitMs = FIRST_WAIT_MS;
      lastHeard = Date.now();
      say('live');
    };
    source.onerror = lost;
    for (const [name, handle] of Object.entries(handlers)) {
      source.addEventListener(name, (event) => {
        lastHeard = Date.now();
        deliver(name, handle, event.data);
      });
    }
  }

  function lost() {
    source?.close();
    say('down');
    clearTimeout(timer);
    timer = setTimeout(connect, waitMs);
    waitMs = Math.min(waitMs * 2, LONGEST_WAIT_MS);
    refusal?.().then((reason) => reason && state === 'down' && onState('down', reason));
  }

  async function look() {
    if (probing || state !== 'live' || Date.now() - lastHeard < QUIET_MS) return;
    probing = true;
    try {
      await probe();
      lastHeard = Date.now();
    } catch {
      lost();
    } finally {
      probing = false;
    }
  }

  /** Reconnects at once, for a phone that wakes up. */
  function hurry() {
    if (state !== 'live') connect();
    else look();
  }

  onState('connecting');
  state = 'connecting';
  connect();
  const looking = setInterval(look, LOOK_EVERY_MS);
  globalThis.addEventListener?.('online', hurry);
  const onVisible = () => document.visibilityState === 'visible' && hurry();
  globalThis.document?.addEventListener('visibilitychange', onVisible);

  return {
    close() {
      clearTimeout(timer);
      clearInterval(looking);
      source?.close();
      globalThis.removeEventListener?.('online', hurry);
      globalThis.document?.removeEventListener('visibilitychange', onVisible);
    },
  };
}

function deliver(name, handle, text) {
  let data;
  try {
    data = JSON.parse(text);
  } catch {
    console.warn(`A live event '${name}' could not be read.`);
    return;
  }
  handle(data);
}
