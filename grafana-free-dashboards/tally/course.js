// The course of germination over days or over heat, as lines to draw. Pure.

/**
 * The curve of interval-censored counts as two lines of [x, fraction]: at least so many had germinated by then, and
 * at most. Between them it is not known. Steps whose end is null were never seen.
 */
export function curveLines(curve, end) {
  const steps = curve.filter((step) => step.to !== null);
  const line = (edge) => {
    const path = [[0, 0]];
    let sum = 0;
    for (const step of [...steps].sort((a, b) => a[edge] - b[edge])) {
      path.push([step[edge], sum]);
      sum += step.fraction;
      path.push([step[edge], sum]);
    }
    path.push([Math.max(end, path.at(-1)[0]), sum]);
    return path;
  };
  return { least: line('to'), most: line('from') };
}

/** The fraction found germinated once x was reached. */
const foundBy = (curve, x) =>
  curve.filter((step) => step.to !== null && step.to <= x * (1 + 1e-9)).reduce((sum, step) => sum + step.fraction, 0);

/** Heat at the checks of seeds whose time is covered by readings; of others hardly anything is known. */
const measuredHeat = (rows) =>
  rows
    .filter((row) => row.measured !== false)
    .flatMap(({ from, to }) => [from, to])
    .filter(Boolean);

/** How uncertain the heat is at each check of each group: [{low, high, at}], `at` the fraction found by then. */
export function heatWhiskers({ rows, curve }) {
  const checks = new Map(
    measuredHeat(rows)
      .filter((heat) => heat.most > heat.least)
      .map((heat) => [`${heat.likely}/${heat.least}/${heat.most}`, heat]),
  );
  return [...checks.values()].map((heat) => ({ low: heat.least, high: heat.most, at: foundBy(curve, heat.likely) }));
}

/** The heat up to which somebody looked: the most that any group had received at its last check. */
export const watchedHeat = ({ rows }) => Math.max(0, ...measuredHeat(rows).map((heat) => heat.likely));

/** End of the heat axis: the heat at the last check plus its uncertainty, but at most a quarter more. */
export function heatEnd(course) {
  const watched = watchedHeat(course);
  const most = Math.max(0, ...heatWhiskers(course).map((one) => one.high));
  return Math.max(watched, Math.min(1.25 * watched, most));
}

/**
 * The lognormal distribution function with a final fraction, as [heat, fraction] pairs up to `end`; the fraction that
 * never germinates needs no heat.
 */
export function fittedLine({ medianHeat, sigma, finalFraction }, end, points = 80) {
  const line = [[0, 0]];
  for (let i = 1; i <= points; i += 1) {
    const heat = (i / points) * end;
    line.push([heat, finalFraction * normal(Math.log(heat / medianHeat) / sigma)]);
  }
  return line;
}

/** The standard normal distribution function, to 1e-7: Abramowitz and Stegun (1964), 26.2.17. */
export function normal(z) {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const tail =
    (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) *
    t *
    (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  return z >= 0 ? 1 - tail : tail;
}

/** Half the 95 % point of the chi-square distribution with one degree of freedom (Wilks, Ann. Math. Stat. 9, 1938, 60-62). */
export const DROP_95 = 1.920729;
const DEEPEST = 8;

/**
 * The likelihood over base temperatures as lines of [base, how far below the highest]; bases under which some seed
 * would have germinated without any heat have no likelihood and break the line.
 */
export function profileLines(profile) {
  const known = profile.filter((one) => one.logLikelihood !== null);
  if (known.length < 2) return null;
  const top = Math.max(...known.map((one) => one.logLikelihood));
  const lines = [[]];
  for (const { base, logLikelihood } of [...profile].sort((a, b) => a.base - b.base)) {
    if (logLikelihood !== null) lines.at(-1).push([base, logLikelihood - top]);
    else if (lines.at(-1).length > 0) lines.push([]);
  }
  const lowest = Math.min(...known.map((one) => one.logLikelihood - top));
  return {
    lines: lines.filter((line) => line.length > 0),
    lowest: Math.max(-DEEPEST, Math.min(lowest * 1.05, -1.5 * DROP_95)),
  };
}
