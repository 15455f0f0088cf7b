package tepidarium.app.demo;

import java.time.Duration;
import java.time.Instant;
import java.util.SplittableRandom;

/**
 * Generates reproducible noise: a pure function of the seed and of the time since the origin. Live
 * readings therefore continue the history.
 *
 * @param origin start of the time scale
 */
record Noise(long seed, Instant origin) {
  /** A large odd multiplier, so that neighbouring seeds give different sequences. */
  private static final long SEED_MULTIPLIER = 0xD1342543DE82EF95L;

  /** Returns a source of noise that is independent of this one. */
  Noise independent(long number) {
    return new Noise(seed * 31 + number, origin);
  }

  /** Returns white noise: an independent standard normal value for each millisecond. */
  double white(Instant at) {
    return gaussian(Duration.between(origin, at).toMillis());
  }

  /** Returns slow noise: standard normal values at knots, smoothly interpolated between them. */
  double slow(Instant at, Duration knotDistance) {
    double position = (double) Duration.between(origin, at).toMillis() / knotDistance.toMillis();
    long knot = (long) Math.floor(position);
    double fraction = position - knot;
    double smooth = fraction * fraction * (3 - 2 * fraction);
    return gaussian(knot) * (1 - smooth) + gaussian(knot + 1) * smooth;
  }

  /** Returns a uniformly distributed value between low and high, one value for each key. */
  double between(double low, double high, long key) {
    return low + (high - low) * random(key).nextDouble();
  }

  private double gaussian(long key) {
    return random(key).nextGaussian();
  }

  private SplittableRandom random(long key) {
    return new SplittableRandom(seed * SEED_MULTIPLIER + key);
  }
}
