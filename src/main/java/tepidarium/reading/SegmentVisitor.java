package tepidarium.reading;

/** Receives a record piece by piece, in order of time; the pieces leave no part of it out. */
public interface SegmentVisitor {
  /** A straight line between two neighbouring readings, clipped to the span asked for. */
  void line(long startMs, double startValue, long endMs, double endValue);

  /** A stretch in which nothing is known: longer than the longest gap, or before or after all. */
  void gap(long startMs, long endMs);
}
