// The temperature that the seeds of a group had, by days since sowing and by the heat received until then. Pure.

const MS_PER_DAY = 86_400_000;
const MS_PER_HOUR = 3_600_000;

/** The way that most seeds of the group came: [{container, from, until}], ms, until the end of the course. */
export function legsOf({ ways }, endMs) {
  const main = [...ways].sort((a, b) => b.share - a.share)[0];
  return (main?.legs ?? [])
    .map(({ container, from, until }) => ({
      container,
      from: Date.parse(from),
      until: Math.min(endMs, Date.parse(until)),
    }))
    .filter(({ from, until }) => from < until);
}

/**
 * The points of a group: [{day, temperature, heat}], temperature null in a gap. Heat in gaps goes on at the mean rate
 * of the same stay, as in the service's figures; from means of short stretches, so it is for a picture only.
 * @param stays the legs, each with its columns: [times, mean, …], °C; @param rule base and ceiling, °C
 */
export function warmthPoints(stays, sownAt, { base, ceiling }) {
  const rate = (celsius) => Math.max(0, Math.min(celsius, ceiling ?? Infinity) - base);
  const points = [];
  let heat = 0;
  for (const { from, until, columns } of stays) {
    const [times, means] = columns;
    const known = means.filter((value) => value !== null);
    const usual = known.length === 0 ? 0 : known.reduce((sum, value) => sum + rate(value), 0) / known.length;
    let before = { at: from, rate: usual };
    const go = (at, value) => {
      heat += ((before.rate + (value === null ? usual : rate(value))) / 2) * ((at - before.at) / MS_PER_HOUR);
      before = { at, rate: value === null ? usual : rate(value) };
      points.push({ day: (at - sownAt) / MS_PER_DAY, temperature: value, heat });
    };
    times.forEach((at, i) => at >= from && at <= until && go(at, means[i]));
    go(until, null);
  }
  return points;
}

/** The day on which so much heat was reached, between the points; null if it was not. */
export function dayOfHeat(points, heat) {
  const i = points.findIndex((point) => point.heat >= heat);
  if (i < 0) return null;
  if (i === 0 || points[i].heat === points[i - 1].heat) return points[i].day;
  const [a, b] = [points[i - 1], points[i]];
  return a.day + ((heat - a.heat) / (b.heat - a.heat)) * (b.day - a.day);
}

/** The lines between gaps as pairs of x and temperature. */
export function strokes(points, axis) {
  const lines = [[]];
  for (const point of points) {
    if (point.temperature === null) lines.push([]);
    else lines.at(-1).push([axis === 'days' ? point.day : point.heat, point.temperature]);
  }
  return lines.filter((line) => line.length > 0);
}

/** The mean of the temperatures of equal parts of the axis: [{x, temperature}]; parts without readings are left out. */
export function partsOf(points, axis, end, parts) {
  const sums = Array.from({ length: parts }, () => [0, 0]);
  for (const [x, temperature] of strokes(points, axis).flat()) {
    const part = Math.min(parts - 1, Math.floor((x / end) * parts));
    if (part < 0 || x > end) continue;
    sums[part][0] += temperature;
    sums[part][1] += 1;
  }
  return sums.map(([sum, count]) => (count === 0 ? null : sum / count));
}

/** The mean temperature of a group until the end of the course; null without readings. */
export function meanWarmth(points) {
  const known = points.filter((point) => point.temperature !== null).map((point) => point.temperature);
  return known.length === 0 ? null : known.reduce((a, b) => a + b) / known.length;
}
