package tepidarium.rollup;

import org.jspecify.annotations.Nullable;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/**
 * Count, sum, extremes, first and last instant of the readings of one quantity in a span. Summaries
 * of adjoining spans can be added.
 *
 * @param count number of readings, at least 1
 * @param sum sum of their values, in the unit of the quantity
 * @param firstMs instant of the first one
 * @param lastMs instant of the last one
 */
public record Summary(int count, double sum, double min, double max, long firstMs, long lastMs) {

  /**
   * Summarises the samples from the span's start (inclusive) to its end (exclusive); null if there
   * are none.
   */
  static @Nullable Summary of(Samples samples, Span span) {
    int start = samples.indexFrom(span.fromMs());
    int end = samples.indexFrom(span.toMs());
    if (start >= end) {
      return null;
    }
    double sum = 0;
    double min = Double.POSITIVE_INFINITY;
    double max = Double.NEGATIVE_INFINITY;
    for (int i = start; i < end; i++) {
      sum += samples.value(i);
      min = Math.min(min, samples.value(i));
      max = Math.max(max, samples.value(i));
    }
    return new Summary(end - start, sum, min, max, samples.atMs(start), samples.atMs(end - 1));
  }

  /** Adds the summary of a later span. */
  public Summary plus(Summary later) {
    return new Summary(
        count + later.count,
        sum + later.sum,
        Math.min(min, later.min),
        Math.max(max, later.max),
        firstMs,
        later.lastMs);
  }

  /**
   * The plain mean of the readings. For the time-weighted mean see {@link RollupRow#timeWeighted}.
   */
  public double mean() {
    return sum / count;
  }
}
