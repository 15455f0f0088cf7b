package tepidarium.alert;

import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.OptionalDouble;
import org.apache.commons.statistics.distribution.TDistribution;
import org.jspecify.annotations.Nullable;
import tepidarium.heat.Limit;
import tepidarium.reading.Samples;
import tepidarium.stats.Approach;

/**
 * Forecasts when the temperature will cross a limit if the present trend continues. Fits a
 * first-order approach to a steady value ({@link Approach}) to the last 15, 30, 60 or 120 min; uses
 * the shortest window with a clear trend. There is no forecast
 *
 * <ul>
 *   <li>when the steady value stays inside the limit, or the crossing lies beyond the horizon;
 *   <li>when the trend could be noise (Student's t of the slope, one in a million), is less than
 *       0.25 °C in all, or the curve does not describe the readings;
 *   <li>when the temperature was as far out within the last four hours and came back by itself,
 *       which is normal for a switched heat source. After an opening there may therefore be no
 *       forecast for four hours. The limit's own alert does not depend on the forecast.
 * </ul>
 *
 * <p>The bounds are common practice, no source.
 *
 * @param at predicted time of crossing the limit
 * @param valueC present temperature from the fitted curve, °C
 * @param steadyC steady temperature that the curve approaches, °C
 * @param perHourC present rate of change, °C/h
 */
public record Forecast(Limit limit, Instant at, double valueC, double steadyC, double perHourC) {
  /**
   * Maximum time from now to a forecast crossing, enough to get home or plug in a mat. Common
   * practice, no source.
   */
  public static final Duration MAX_LEAD_TIME = Duration.ofHours(2);

  /** Length of past readings that a forecast uses at most. */
  public static final Duration LOOKS_BACK = Duration.ofHours(6);

  private static final Duration[] WINDOWS = {
    Duration.ofMinutes(15), Duration.ofMinutes(30), Duration.ofMinutes(60), Duration.ofMinutes(120)
  };
  private static final Duration EARLIER = Duration.ofHours(4);
  private static final Duration STALE = Duration.ofMinutes(15);
  private static final Duration RECORD_FOR_SHORT_WINDOW = Duration.ofMinutes(60);
  private static final int MIN_SAMPLES = 8;
  private static final double COVERED_SHARE = 0.7;
  private static final double CHANCE = 1e-6;
  private static final double MIN_CHANGE_C = 0.25;

  /** Lowest assumed noise: half the resolution step of a common sensor. */
  private static final double MIN_NOISE_C = 0.03;

  private static final double NOISE_SHARE = 0.12;
  private static final double NEWS_SHARE = 0.15;
  private static final double MS_PER_HOUR = 3_600_000.0;

  /**
   * Computes the forecast; empty if there is none.
   *
   * @param temperature calibrated, °C; samples older than {@link #LOOKS_BACK} are ignored
   * @param horizon maximum time until the crossing
   */
  public static Optional<Forecast> of(
      Samples temperature, Limit limit, Instant now, Duration horizon) {
    long nowMs = now.toEpochMilli();
    Samples recent = temperature.between(nowMs - LOOKS_BACK.toMillis(), nowMs + 1);
    if (recent.isEmpty() || nowMs - recent.lastMs() > STALE.toMillis()) {
      return Optional.empty();
    }
    Trend trend = trend(recent);
    return trend == null ? Optional.empty() : crossing(trend, recent, limit, horizon);
  }

  /**
   * Finds the shortest window with a clear trend, then uses the longest window that the same curve
   * fits as well, because it gives a more precise crossing time.
   */
  private static @Nullable Trend trend(Samples recent) {
    Trend found = null;
    for (Duration window : WINDOWS) {
      long start = recent.lastMs() - window.toMillis();
      Samples part = recent.between(start, recent.lastMs() + 1);
      if (!enough(part, window) || !knownBefore(recent, window)) {
        continue;
      }
      Trend trend = Trend.of(part, start);
      if (found == null && trend.distinct()) {
        found = trend;
      } else if (found != null && trend.distinct() && trend.fitsLike(found)) {
        found = trend;
      } else if (found != null) {
        break;
      }
    }
    return found;
  }

  private static Optional<Forecast> crossing(
      Trend trend, Samples recent, Limit limit, Duration horizon) {
    double towards = limit.side() == Limit.Side.LOW ? -1 : 1;
    if (towards * trend.change() < 0
        || limit.outside(trend.value())
        || cameBack(recent, trend, towards)) {
      return Optional.empty();
    }
    OptionalDouble hours = trend.hoursUntil(limit.value());
    if (hours.isEmpty() || hours.getAsDouble() * MS_PER_HOUR > horizon.toMillis()) {
      return Optional.empty();
    }
    Instant at =
        Instant.ofEpochMilli(recent.lastMs() + Math.round(hours.getAsDouble() * MS_PER_HOUR));
    return Optional.of(
        new Forecast(limit, at, trend.value(), trend.curve.steady(), trend.perHour()));
  }

  private static boolean enough(Samples part, Duration window) {
    if (part.size() < MIN_SAMPLES) {
      return false;
    }
    long longest = 0;
    for (int i = 1; i < part.size(); i++) {
      longest = Math.max(longest, part.atMs(i) - part.atMs(i - 1));
    }
    return part.lastMs() - part.firstMs() >= COVERED_SHARE * window.toMillis()
        && longest <= window.toMillis() / 3;
  }

  /**
   * Whether there are enough earlier readings for the window. A few minutes after the first
   * reading, the trend may be one heating cycle of a mat.
   */
  private static boolean knownBefore(Samples recent, Duration window) {
    long known = recent.lastMs() - window.toMillis() - recent.firstMs();
    return window.compareTo(RECORD_FOR_SHORT_WINDOW) >= 0
        || known >= RECORD_FOR_SHORT_WINDOW.toMillis();
  }

  /** Whether the temperature was as far out within the last four hours and came back. */
  private static boolean cameBack(Samples recent, Trend trend, double towards) {
    Samples earlier = recent.between(trend.startMs - EARLIER.toMillis(), trend.startMs);
    if (earlier.isEmpty()) {
      return false;
    }
    double farthest = Double.NEGATIVE_INFINITY;
    double nearest = Double.POSITIVE_INFINITY;
    for (int i = 0; i < earlier.size(); i++) {
      farthest = Math.max(farthest, towards * earlier.value(i));
      nearest = Math.min(nearest, towards * earlier.value(i));
    }
    double news = Math.max(2 * trend.noise, NEWS_SHARE * (farthest - nearest));
    return towards * trend.value() < farthest + news;
  }

  /** The fitted curve over a window; time in hours from its start. */
  private record Trend(
      long startMs,
      Approach curve,
      double noise,
      double hours,
      double t,
      double tailSlope,
      int points) {
    static Trend of(Samples part, long startMs) {
      double[] t = new double[part.size()];
      double[] y = new double[part.size()];
      for (int i = 0; i < t.length; i++) {
        t[i] = (part.atMs(i) - part.firstMs()) / MS_PER_HOUR;
        y[i] = part.value(i);
      }
      Approach curve = Approach.fit(t, y);
      double noise = Math.max(curve.residual(), MIN_NOISE_C);
      double slope = slope(t, y, 0);
      double studentT = Math.abs(slope) * Math.sqrt(squares(t)) / noise;
      int tail = t.length * 2 / 3;
      return new Trend(
          startMs, curve, noise, t[t.length - 1], studentT, slope(t, y, tail), t.length);
    }

    private static double slope(double[] t, double[] y, int from) {
      double meanT = 0;
      double meanY = 0;
      for (int i = from; i < t.length; i++) {
        meanT += t[i] / (t.length - from);
        meanY += y[i] / (t.length - from);
      }
      double tt = 0;
      double ty = 0;
      for (int i = from; i < t.length; i++) {
        tt += (t[i] - meanT) * (t[i] - meanT);
        ty += (t[i] - meanT) * (y[i] - meanY);
      }
      return ty / tt;
    }

    private static double squares(double[] t) {
      double mean = 0;
      for (double one : t) {
        mean += one / t.length;
      }
      double sum = 0;
      for (double one : t) {
        sum += (one - mean) * (one - mean);
      }
      return sum;
    }

    double value() {
      return curve.at(hours);
    }

    double perHour() {
      return (curve.steady() - value()) / curve.timeConstant();
    }

    /** Change from start to end, °C. */
    double change() {
      return value() - curve.start();
    }

    /** Whether the trend is significant and continues in the same direction at the end. */
    boolean distinct() {
      TDistribution byChance = TDistribution.of(points - 3.0);
      return Math.abs(change()) >= MIN_CHANGE_C
          && noise <= NOISE_SHARE * Math.abs(change())
          && change() * tailSlope > 0
          && t >= byChance.inverseSurvivalProbability(CHANCE);
    }

    /** Whether this curve fits its readings as well as the other, apart from noise. */
    boolean fitsLike(Trend other) {
      return curve.residual() <= 1.6 * other.curve.residual() + 0.005;
    }

    OptionalDouble hoursUntil(double level) {
      OptionalDouble crossing = curve.timeOf(level);
      return crossing.isPresent() && crossing.getAsDouble() >= hours
          ? OptionalDouble.of(crossing.getAsDouble() - hours)
          : OptionalDouble.empty();
    }
  }
}
