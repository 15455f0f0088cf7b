// Deduplicates notices: if several pages are open in a browser, only one of them shows each notice.

/** Time within which all pages of a browser receive the notice and hear of each other. */
const TOGETHER_MS = 250;
const MOST_MISSED = 3;

/** A test notice has no id. */
const keyOf = (notice) => notice.id || notice.createdAt;

/**
 * Returns a function that takes each notice as it comes.
 * @param channel joins the pages of one browser, as a BroadcastChannel does; null for a page that is alone
 * @param eagerness how well this page can tell, as a number; the most eager page tells
 * @param later calls a function once the other pages had time to answer
 */
export function tellOnce({ channel, eagerness, tell, later = (decide) => setTimeout(decide, TOGETHER_MS) }) {
  const taken = new Set();
  const others = new Map();
  const hear = ({ data: { key, eager } }) => others.set(key, Math.max(eager, others.get(key) ?? -1));
  channel?.addEventListener('message', hear);
  return (notice) => {
    const key = keyOf(notice);
    if (taken.has(key)) return;
    taken.add(key);
    if (!channel) {
      tell(notice);
      return;
    }
    // The random fraction decides between pages of equal eagerness.
    const eager = eagerness() + Math.random();
    channel.postMessage({ key, eager });
    later(() => {
      if ((others.get(key) ?? -1) > eager) return;
      // A page that the notice reaches later is outdone for good.
      channel.postMessage({ key, eager: Infinity });
      tell(notice);
    });
  };
}

/**
 * Which notices went to open pages while this one heard nothing, oldest first and only the last few.
 * @param sent as the service lists them, newest first
 * @param newest the highest number that this page knew of
 */
export function missedNotices(sent, newest) {
  const missed = sent.filter(
    ({ notice, deliveries }) => notice.id > newest && deliveries.some((one) => one.notifier === 'page'),
  );
  return missed
    .slice(0, MOST_MISSED)
    .map(({ notice }) => notice)
    .reverse();
}

export const newestOf = (sent) => Math.max(0, ...sent.map(({ notice }) => notice.id));
