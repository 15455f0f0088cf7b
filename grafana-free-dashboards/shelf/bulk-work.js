// Does one thing for many containers or alerts. Pure but for the work that is passed in.

/** Requests at a time: enough to be quick, few enough to leave the service free for others. */
const AT_ONCE = 4;

/**
 * Calls `work` for each item; a failure does not stop the others.
 * @param progress called with the number of items that are finished
 * @return done: the results; failed: item and message of each failure
 */
export async function forEach(items, work, progress = () => {}) {
  const done = [];
  const failed = [];
  const waiting = [...items];
  const one = async () => {
    for (let item = waiting.shift(); item !== undefined; item = waiting.shift()) {
      try {
        done.push(await work(item));
      } catch (problem) {
        failed.push({ item, message: problem.message });
      }
      progress(done.length + failed.length);
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, one));
  return { done, failed };
}

/** The settings of a container with some limits changed; null keeps a limit. */
export function withLimits(container, { low, high, lightHigh, humidityLow }) {
  const { name, kind, heatSource, room, base, ceiling, band } = container;
  return {
    name,
    kind,
    heatSource,
    room,
    base,
    ceiling,
    band: {
      temperature: { low: low ?? band.temperature.low, high: high ?? band.temperature.high },
      light: { high: lightHigh ?? band.light.high },
      humidity: { low: humidityLow ?? band.humidity.low },
    },
  };
}
