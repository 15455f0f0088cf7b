package tepidarium.calibration;

import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.stats.TheilSen;

/**
 * Whether a sensor shows a steady value, so that it can be taken as the reading of a calibration
 * point. A straight line is fitted to the newest readings. They are steady if the line changes by
 * at most twice the noise of a common sensor, and no reading is more than five times that noise
 * away from the line. Uses the readings of the last ten minutes, or the last six readings if that
 * is more. From 200 readings on, it uses only every second, third and so on. The bounds are common
 * practice, no source.
 *
 * @param state whether the readings are steady, or why not yet
 * @param readings number of readings that count
 * @param at instant of the newest reading; {@link Instant#EPOCH} if there is none
 * @param length time from the first to the last of them
 * @param mean their mean, raw, in the unit of the quantity; NaN without readings
 * @param drift change of the line over {@code length}, in the same unit; NaN with too few readings
 * @param spread largest distance of a reading from the line, in the same unit; NaN likewise
 * @param driftLimit largest drift of a steady value, in the same unit
 */
public record Settling(
    State state,
    int readings,
    Instant at,
    Duration length,
    double mean,
    double drift,
    double spread,
    double driftLimit) {
  public static final int FEWEST_READINGS = TheilSen.FEWEST_POINTS;
  public static final Duration WINDOW = Duration.ofMinutes(10);

  /** Readings older than this do not count. */
  public static final Duration OLDEST = Duration.ofHours(2);

  private static final int MAX_READINGS = 200;
  private static final double MAX_DRIFT = 2;
  private static final double MAX_SPREAD = 5;

  /** Noise of a light sensor, as a share of the reading. */
  private static final double LIGHT_NOISE_SHARE = 0.01;

  /** Whether the value can be taken, or why not yet. */
  public enum State {
    /** Too few readings. */
    WAITING,
    /** The line rises or falls too much. */
    DRIFTING,
    /** A reading lies too far from the line. */
    UNSTEADY,
    /** The value can be taken. */
    SETTLED
  }

  /**
   * Judges the newest readings.
   *
   * @param raw readings of one sensor as it sent them; those before {@code now − } {@link #OLDEST}
   *     or after {@code now} are ignored
   */
  public static Settling of(Quantity quantity, Samples raw, Instant now) {
    Samples newest = newest(raw.between(now.minus(OLDEST).toEpochMilli(), now.toEpochMilli() + 1));
    // Evenly chosen, because the line takes time and memory by the square of their number.
    int step = 1 + newest.size() / MAX_READINGS;
    int n = (newest.size() + step - 1) / step;
    double[] hours = new double[n];
    double[] values = new double[n];
    for (int i = 0; i < n; i++) {
      int index = newest.size() - 1 - (n - 1 - i) * step;
      hours[i] = (newest.atMs(index) - newest.firstMs()) / 3.6e6;
      values[i] = newest.value(index);
    }
    double mean = Arrays.stream(values).average().orElse(Double.NaN);
    double noise =
        quantity == Quantity.LIGHT && n > 0
            ? Math.max(quantity.noise(), LIGHT_NOISE_SHARE * mean)
            : quantity.noise();
    double limit = MAX_DRIFT * noise;
    Instant at = n == 0 ? Instant.EPOCH : Instant.ofEpochMilli(newest.lastMs());
    Duration length = Duration.ofMillis(n == 0 ? 0 : newest.lastMs() - newest.firstMs());
    if (n < FEWEST_READINGS) {
      return new Settling(State.WAITING, n, at, length, mean, Double.NaN, Double.NaN, limit);
    }
    TheilSen line = TheilSen.of(hours, values);
    double drift = line.slope() * hours[n - 1];
    double spread = 0;
    for (int i = 0; i < n; i++) {
      double onLine = line.intercept() + line.slope() * hours[i];
      spread = Math.max(spread, Math.abs(values[i] - onLine));
    }
    State state =
        Math.abs(drift) > limit
            ? State.DRIFTING
            : spread > MAX_SPREAD * noise ? State.UNSTEADY : State.SETTLED;
    return new Settling(state, n, at, length, mean, drift, spread, limit);
  }

  private static Samples newest(Samples recent) {
    if (recent.size() <= FEWEST_READINGS) {
      return recent;
    }
    long inWindow = recent.lastMs() - WINDOW.toMillis();
    long sixth = recent.atMs(recent.size() - FEWEST_READINGS);
    return recent.between(Math.min(inWindow, sixth), recent.lastMs() + 1);
  }
}
