package tepidarium.reading;

/** Visits the segments of a series in time order; the segments cover the whole span. */
public interface SegmentVisitor {
  /** A straight line between two neighbouring readings, clipped to the span asked for. */
  void line(long startMs, double startValue, long endMs, double endValue);

  /**
   * A span without data: a gap longer than the longest allowed one, or time before the first or
   * after the last sample.
   */
  void gap(long startMs, long endMs);
}
