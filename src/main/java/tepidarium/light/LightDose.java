package tepidarium.light;

import java.time.Duration;
import tepidarium.reading.Samples;
import tepidarium.reading.SegmentVisitor;
import tepidarium.reading.Span;

/**
 * The light dose over a span: the trapezoid integral between readings; gaps add nothing.
 *
 * @param luxHours lux·h over covered time
 * @param coveredMs time covered by readings, ms
 * @param gapMs time without readings, ms
 */
public record LightDose(double luxHours, long coveredMs, long gapMs) {

  /** Adds up the light of a span. */
  public static LightDose of(Samples light, Span span, Duration maxGap) {
    Adder adder = new Adder();
    light.walk(span, maxGap.toMillis(), adder);
    return new LightDose(adder.luxMs / 3_600_000.0, adder.coveredMs, adder.gapMs);
  }

  private static final class Adder implements SegmentVisitor {
    private double luxMs;
    private long coveredMs;
    private long gapMs;

    @Override
    public void line(long startMs, double startLux, long endMs, double endLux) {
      luxMs += (startLux + endLux) / 2 * (endMs - startMs);
      coveredMs += endMs - startMs;
    }

    @Override
    public void gap(long startMs, long endMs) {
      gapMs += endMs - startMs;
    }
  }
}
