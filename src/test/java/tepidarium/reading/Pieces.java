package tepidarium.reading;

import java.util.ArrayList;
import java.util.List;

/** What a walk over a record shows, as values that can be compared. */
final class Pieces {
  /** A line, or a gap where both values are NaN. */
  record Piece(long startMs, double startValue, long endMs, double endValue) {
    boolean isGap() {
      return Double.isNaN(startValue);
    }
  }

  private Pieces() {}

  static List<Piece> of(Samples samples, Span span, long maxGapMs) {
    List<Piece> seen = new ArrayList<>();
    samples.walk(
        span,
        maxGapMs,
        new SegmentVisitor() {
          @Override
          public void line(long startMs, double startValue, long endMs, double endValue) {
            seen.add(Pieces.line(startMs, startValue, endMs, endValue));
          }

          @Override
          public void gap(long startMs, long endMs) {
            seen.add(Pieces.gap(startMs, endMs));
          }
        });
    return seen;
  }

  static Piece line(long startMs, double startValue, long endMs, double endValue) {
    return new Piece(startMs, startValue, endMs, endValue);
  }

  static Piece gap(long startMs, long endMs) {
    return new Piece(startMs, Double.NaN, endMs, Double.NaN);
  }

  static List<SampleRecords.Step> steps(Samples samples) {
    List<SampleRecords.Step> steps = new ArrayList<>();
    for (int i = 0; i < samples.size(); i++) {
      steps.add(new SampleRecords.Step(samples.atMs(i), samples.value(i)));
    }
    return steps;
  }
}
