package tepidarium.app.demo;

import java.time.Duration;
import java.time.Instant;
import java.util.SplittableRandom;

/**
 * Chance that is the same at every run: a pure function of the seed and of the time since the
 * origin, so that live readings go on where the history ended.
 *
 * @param origin where time is counted from
 */
record Noise(long seed, Instant origin) {
  /** Any large odd number keeps neighbouring seeds apart. */
  private static final long SPREAD = 0xD1342543DE82EF95L;

  /** Another source, independent of this one. */
  Noise other(long number) {
    return new Noise(seed * 31 + number, origin);
  }

  /** Standard normal, anew for every millisecond. */
  double white(Instant at) {
    return gaussian(Duration.between(origin, at).toMillis());
  }

  /** Standard normal at knots this far apart, and smooth between them. */
  double slow(Instant at, Duration apart) {
    double place = (double) Duration.between(origin, at).toMillis() / apart.toMillis();
    long knot = (long) Math.floor(place);
    double part = place - knot;
    double smooth = part * part * (3 - 2 * part);
    return gaussian(knot) * (1 - smooth) + gaussian(knot + 1) * smooth;
  }

  /** Even between low and high, one value for each key. */
  double between(double low, double high, long key) {
    return low + (high - low) * source(key).nextDouble();
  }

  private double gaussian(long key) {
    return source(key).nextGaussian();
  }

  private SplittableRandom source(long key) {
    return new SplittableRandom(seed * SPREAD + key);
  }
}
