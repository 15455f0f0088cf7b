package tepidarium.light;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/**
 * Detects openings that were not recorded. The light rises at once; temperature and humidity fall
 * within minutes below all values of the hour before, and then recover. If only one of the two is
 * measured, that one is sufficient; light alone is not. The bounds are common practice, no source.
 */
public final class OpeningSigns {
  private static final Duration JOIN = Duration.ofMinutes(2);
  private static final Duration MAX_LENGTH = Duration.ofHours(4);
  private static final Duration BEFORE = Duration.ofHours(1);
  private static final Duration LAG = Duration.ofMinutes(10);
  private static final Duration RECOVERY = Duration.ofHours(2);
  private static final double MIN_FALL_C = 0.3;
  private static final double MIN_FALL_PERCENT = 2;
  private static final double RECOVERED_SHARE = 0.5;

  /**
   * The change of one quantity during an event.
   *
   * @param fall from the last value before to the lowest, in its unit
   * @param clear whether it fell far enough below all earlier values
   * @param recovered whether it recovered by at least half of the fall
   */
  private record Dip(double fall, boolean clear, boolean recovered) {}

  private OpeningSigns() {}

  /** The time span of the samples needed to evaluate events that begin in the span. */
  public static Span neededFor(Span span) {
    return new Span(span.from().minus(BEFORE), span.to().plus(MAX_LENGTH).plus(LAG).plus(RECOVERY));
  }

  /**
   * The signs of openings that begin in the span.
   *
   * @param samples calibrated, over {@link #neededFor} the span
   * @param limitLux readings above it are light
   */
  public static List<OpeningSign> of(
      Map<Quantity, Samples> samples, Span span, double limitLux, Duration maxGap) {
    Samples light = samples.getOrDefault(Quantity.LIGHT, Samples.EMPTY);
    List<OpeningSign> signs = new ArrayList<>();
    for (LightEvent event : LightEvents.of(light, limitLux, maxGap, JOIN)) {
      boolean wanted = span.contains(event.start()) && !event.start().equals(first(light));
      if (wanted && LightShape.of(light, event, limitLux).sudden()) {
        OpeningSign sign = sign(samples, event, maxGap);
        if (sign != null) {
          signs.add(sign);
        }
      }
    }
    return signs;
  }

  /** The first light sample; an event that starts there may have begun much earlier. */
  private static Instant first(Samples light) {
    return Instant.ofEpochMilli(light.firstMs());
  }

  private static @Nullable OpeningSign sign(
      Map<Quantity, Samples> samples, LightEvent event, Duration maxGap) {
    Span lit = new Span(event.start(), event.lastSeen());
    if (lit.length().compareTo(MAX_LENGTH) > 0) {
      return null;
    }
    Dip warmth = dip(samples.get(Quantity.TEMPERATURE), lit, MIN_FALL_C, maxGap);
    Dip moisture = dip(samples.get(Quantity.HUMIDITY), lit, MIN_FALL_PERCENT, maxGap);
    if (!shows(warmth, moisture)) {
      return null;
    }
    Instant until = lit.to().isAfter(lit.from()) ? lit.to() : lit.from().plus(JOIN);
    return new OpeningSign(
        new Span(lit.from(), until), event.peakLux(), fall(warmth), fall(moisture));
  }

  private static boolean shows(@Nullable Dip warmth, @Nullable Dip moisture) {
    if (warmth == null && moisture == null) {
      return false;
    }
    boolean allFell = (warmth == null || warmth.clear()) && (moisture == null || moisture.clear());
    boolean oneCameBack =
        (warmth != null && warmth.recovered()) || (moisture != null && moisture.recovered());
    return allFell && oneCameBack;
  }

  private static @Nullable Double fall(@Nullable Dip dip) {
    return dip == null ? null : dip.fall();
  }

  private static @Nullable Dip dip(
      @Nullable Samples samples, Span lit, double leastFall, Duration maxGap) {
    if (samples == null) {
      return null;
    }
    long start = lit.fromMs();
    Samples before = samples.between(start - BEFORE.toMillis(), start);
    Samples during = samples.between(start, lit.toMs() + LAG.toMillis() + 1);
    if (before.isEmpty()
        || during.isEmpty()
        || during.firstMs() - before.lastMs() > maxGap.toMillis()) {
      return null;
    }
    double last = before.value(before.size() - 1);
    int lowest = extreme(during, -1);
    double low = during.value(lowest);
    long lowAt = during.atMs(lowest);
    Samples after = samples.between(lowAt, lowAt + RECOVERY.toMillis());
    double back = after.value(extreme(after, 1));
    return new Dip(
        last - low,
        before.value(extreme(before, -1)) - low >= leastFall,
        back - low >= RECOVERED_SHARE * (last - low));
  }

  /** The index of the greatest value, or with −1 of the least. */
  private static int extreme(Samples samples, int sign) {
    int found = 0;
    for (int i = 1; i < samples.size(); i++) {
      if (sign * samples.value(i) > sign * samples.value(found)) {
        found = i;
      }
    }
    return found;
  }
}
