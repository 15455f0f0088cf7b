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
 * Says that the temperature is heading for a limit, and when it will be there if it goes on like
 * this. A first-order approach to a steady value ({@link Approach}) is fitted to the last quarter
 * of an hour, half hour, hour, or two hours, the shortest that tells. There is no forecast
 *
 * <ul>
 *   <li>when the steady value stays inside the limit, or the crossing lies beyond the horizon;
 *   <li>when the trend could be noise (Student's t of the slope, one in a million), is less than
 *       0.25 °C in all, or the curve does not describe the readings;
 *   <li>when within the last four hours the temperature came back by itself from a level as far
 *       out: that is a switched heat source at work, not a failing one. So after an opening it may
 *       say nothing for four hours; the limit's own alert does not depend on it.
 * </ul>
 *
 * <p>The bounds are common practice, no source.
 *
 * @param at when the limit will be crossed
 * @param valueC the temperature now, off the fitted curve, °C
 * @param steadyC where it tends, °C
 * @param perHourC its change per hour now, °C/h
 */
public record Forecast(Limit limit, Instant at, double valueC, double steadyC, double perHourC) {
  /** How far ahead a forecast looks; common practice, no source. */
  public static final Duration HORIZON = Duration.ofHours(2);

  /** How much of the past a forecast needs at most. */
  public static final Duration LOOKS_BACK = Duration.ofHours(6);

  private static final Duration[] WINDOWS = {
    Duration.ofMinutes(15), Duration.ofMinutes(30), Duration.ofMinutes(60), Duration.ofMinutes(120)
  };
  private static final Duration EARLIER = Duration.ofHours(4);
  private static final Duration STALE = Duration.ofMinutes(15);
  private static final Duration RECORD_FOR_SHORT_WINDOW = Duration.ofMinutes(60);
  private static final int LEAST_SAMPLES = 8;
  private static final double COVERED_SHARE = 0.7;
  private static final double CHANCE = 1e-6;
  private static final double LEAST_CHANGE_C = 0.25;

  /** Half the step of a common sensor; a record without jitter is still no better than this. */
  private static final double LEAST_NOISE_C = 0.03;

  private static final double NOISE_SHARE = 0.12;
  private static final double NEWS_SHARE = 0.15;
  private static final double MS_PER_HOUR = 3_600_000.0;

  /**
   * The forecast, if there is one.
   *
   * @param temperature calibrated, °C; what is older than {@link #LOOKS_BACK} is not looked at
   * @param horizon how far ahead to look
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
   * The shortest stretch with a distinct trend decides; the longest one that its curve describes as
   * well gives it, since that is surer of the time.
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
    if (part.size() < LEAST_SAMPLES) {
      return false;
    }
    long longest = 0;
    for (int i = 1; i < part.size(); i++) {
      longest = Math.max(longest, part.atMs(i) - part.atMs(i - 1));
    }
    return part.lastMs() - part.firstMs() >= COVERED_SHARE * window.toMillis()
        && longest <= window.toMillis() / 3;
  }

  /** Some minutes of a record that has just begun may be one stroke of a heat mat. */
  private static boolean knownBefore(Samples recent, Duration window) {
    long known = recent.lastMs() - window.toMillis() - recent.firstMs();
    return window.compareTo(RECORD_FOR_SHORT_WINDOW) >= 0
        || known >= RECORD_FOR_SHORT_WINDOW.toMillis();
  }

  /** Whether it was as far out before, within some hours, and returned. */
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

  /** The fitted curve over a stretch, in hours from its start. */
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
      double noise = Math.max(curve.residual(), LEAST_NOISE_C);
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

    /** From its start to its end, °C. */
    double change() {
      return value() - curve.start();
    }

    /** Whether it really moves, and still does so the same way at the end. */
    boolean distinct() {
      TDistribution byChance = TDistribution.of(points - 3.0);
      return Math.abs(change()) >= LEAST_CHANGE_C
          && noise <= NOISE_SHARE * Math.abs(change())
          && change() * tailSlope > 0
          && t >= byChance.inverseSurvivalProbability(CHANCE);
    }

    /** Whether its curve is as close to its readings as the other's, but for chance. */
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
