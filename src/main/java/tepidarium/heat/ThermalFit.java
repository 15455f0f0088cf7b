package tepidarium.heat;

import java.util.Arrays;
import java.util.OptionalDouble;
import org.hipparchus.analysis.solvers.BrentSolver;
import tepidarium.stats.Peak;

/**
 * Fits a first-order thermal model to a place: dT/dt = (gain · room − T + rise · on) / τ. The room
 * temperature is linear between readings. Disturbances outside the model (draughts, the lid,
 * somebody in the room) are an autocorrelated process that decays with the time constant; the
 * sensor adds independent noise. The likelihood is that of the innovations of a Kalman filter. Rise
 * and gain enter it linearly, and both variances are estimated from the data.
 *
 * <p>Source: Madsen and Holst, Energy and Buildings 22 (1995) 67-79; Harvey, Forecasting,
 * Structural Time Series Models and the Kalman Filter (1989). Intervals are profile-likelihood
 * intervals (95 %: within 1.92 of the maximum). An interval without an end means that the figure is
 * not determined.
 */
final class ThermalFit {
  /** Half the 95 % quantile of χ² with one degree of freedom. */
  static final double DROP_95 = 1.9207;

  /** Half the 99 % quantile of χ² with one degree of freedom. */
  static final double DROP_99 = 3.3174;

  private static final int GRID = 32;
  private static final int RATIO_GRID = 12;
  private static final double LOG_TAU_ACCURACY = 1e-5;
  private static final double LOG_RATIO_ACCURACY = 1e-2;
  private static final double MAX_DROP = 10;
  private static final int MAX_EVALUATIONS = 200;
  private static final double MIN_HOURS = 0.05;
  private static final double MAX_SPANS = 20;
  private static final double MIN_LOG_RATIO = Math.log(1e-4);
  private static final double MAX_LOG_RATIO = Math.log(1e7);

  /**
   * A value with its interval.
   *
   * @param low lower end; NaN if the data do not determine it
   * @param high upper end; NaN if the data do not determine it
   */
  record Range(double value, double low, double high) {
    boolean isBounded() {
      return !Double.isNaN(low) && !Double.isNaN(high);
    }
  }

  /** The profile likelihood at one time constant: the maximum over all other parameters. */
  @SuppressWarnings("ArrayRecordComponent")
  private record Point(double logTau, double logLikelihood, double[] linear, double[] errors) {}

  private final TrialRecord record;
  private final double[] on;
  private final boolean freeGain;
  private final double[] logTaus;
  private final Point[] profile;
  private final Point best;

  private ThermalFit(TrialRecord record, double[] on, boolean freeGain) {
    this.record = record;
    this.on = on;
    this.freeGain = freeGain;
    double longest = MAX_SPANS * Math.max(1, record.hours[record.size() - 1]);
    double low = Math.log(MIN_HOURS);
    double step = (Math.log(longest) - low) / (GRID - 1);
    this.logTaus = new double[GRID];
    Arrays.setAll(logTaus, i -> low + i * step);
    this.profile = Arrays.stream(logTaus).mapToObj(this::point).toArray(Point[]::new);
    this.best = refined();
  }

  /**
   * Fits a record.
   *
   * @param on for each sample, 1 if the heater was on before it, else 0
   * @param freeGain whether to fit the gain of the room; otherwise it is 1
   */
  static ThermalFit of(TrialRecord record, double[] on, boolean freeGain) {
    return new ThermalFit(record, on, freeGain);
  }

  private Point refined() {
    int top = 0;
    for (int i = 1; i < GRID; i++) {
      top = profile[i].logLikelihood > profile[top].logLikelihood ? i : top;
    }
    double logTau =
        Peak.of(
            x -> point(x).logLikelihood,
            logTaus[Math.max(0, top - 1)],
            logTaus[Math.min(GRID - 1, top + 1)],
            LOG_TAU_ACCURACY);
    return better(profile[top], point(logTau));
  }

  private static Point better(Point a, Point b) {
    return b.logLikelihood > a.logLikelihood ? b : a;
  }

  /** The time constant, h. */
  Range tau() {
    OptionalDouble low = edge(-1, DROP_95);
    OptionalDouble high = edge(1, DROP_95);
    return new Range(
        Math.exp(best.logTau),
        low.isPresent() ? Math.exp(low.getAsDouble()) : Double.NaN,
        high.isPresent() ? Math.exp(high.getAsDouble()) : Double.NaN);
  }

  /**
   * The logarithm of τ at which the profile falls by {@code drop}, in one direction; empty if it
   * does not.
   */
  private OptionalDouble edge(int direction, double drop) {
    double wanted = best.logLikelihood - drop;
    double inside = best.logTau;
    int i = direction > 0 ? 0 : GRID - 1;
    while (i >= 0 && i < GRID) {
      if (direction * (logTaus[i] - best.logTau) > 0) {
        if (profile[i].logLikelihood < wanted) {
          return OptionalDouble.of(crossing(inside, logTaus[i], wanted));
        }
        inside = logTaus[i];
      }
      i += direction;
    }
    return OptionalDouble.empty();
  }

  /** Limits the drop to {@link #MAX_DROP} because the likelihood may be minus infinity. */
  private double crossing(double a, double b, double wanted) {
    return new BrentSolver(LOG_TAU_ACCURACY)
        .solve(
            MAX_EVALUATIONS,
            x -> Math.max(-MAX_DROP, point(x).logLikelihood - wanted),
            Math.min(a, b),
            Math.max(a, b));
  }

  /** The rise above the room with the heater on all the time, °C. */
  Range rise() {
    return linear(0, DROP_95);
  }

  /**
   * The gain of the room: 1 if the place follows it fully, 0 if not at all. Only with a free gain.
   */
  Range gain(double drop) {
    return linear(1, drop);
  }

  /** The interval of a linear parameter over all time constants within the drop. */
  private Range linear(int which, double drop) {
    OptionalDouble low = edge(-1, drop);
    OptionalDouble high = edge(1, drop);
    double from = low.orElse(logTaus[0]);
    double to = high.orElse(logTaus[GRID - 1]);
    double least = Double.POSITIVE_INFINITY;
    double most = Double.NEGATIVE_INFINITY;
    for (int i = 0; i <= GRID; i++) {
      Point point = i == GRID ? best : point(from + (to - from) * i / (GRID - 1));
      double left = drop - (best.logLikelihood - point.logLikelihood);
      if (left >= 0) {
        double reach = point.errors[which] * Math.sqrt(2 * left);
        least = Math.min(least, point.linear[which] - reach);
        most = Math.max(most, point.linear[which] + reach);
      }
    }
    return new Range(best.linear[which], least, most);
  }

  private Point point(double logTau) {
    double step = (MAX_LOG_RATIO - MIN_LOG_RATIO) / (RATIO_GRID - 1);
    Point found = at(logTau, MIN_LOG_RATIO);
    double centre = MIN_LOG_RATIO;
    for (int i = 1; i < RATIO_GRID; i++) {
      Point next = at(logTau, MIN_LOG_RATIO + i * step);
      if (next.logLikelihood > found.logLikelihood) {
        found = next;
        centre = MIN_LOG_RATIO + i * step;
      }
    }
    double logRatio =
        Peak.of(x -> at(logTau, x).logLikelihood, centre - step, centre + step, LOG_RATIO_ACCURACY);
    return better(found, at(logTau, logRatio));
  }

  /**
   * The likelihood for a time constant and a ratio of variances. The model is linear, so the filter
   * runs separately on the readings, the room and the heater; rise and gain then follow from the
   * innovations by least squares.
   *
   * @param logRatio logarithm of the variance of the disturbances divided by that of the sensor
   *     noise
   */
  private Point at(double logTau, double logRatio) {
    double tau = Math.exp(logTau);
    double ratio = Math.exp(logRatio);
    Sums sums = new Sums(freeGain);
    double seen = 0;
    double room = 0;
    double heater = 0;
    double variance = 0;
    double lastStep = Double.NaN;
    double stays = 1;
    for (int i = 0; i < record.size(); i++) {
      if (record.afterGap[i]) {
        seen = record.insideC[i];
        room = 0;
        heater = 0;
        variance = 1;
        continue;
      }
      double step = record.hours[i] - record.hours[i - 1];
      if (step != lastStep) {
        stays = Math.exp(-step / tau);
        lastStep = step;
      }
      double slope = (record.roomC[i] - record.roomC[i - 1]) * (tau / step) * (1 - stays);
      seen *= stays;
      room = stays * room + record.roomC[i] - stays * record.roomC[i - 1] - slope;
      heater = stays * heater + (1 - stays) * on[i];
      variance = stays * stays * variance + ratio * (1 - stays * stays);
      double total = variance + 1;
      double weight = variance / total;
      double innovation = record.insideC[i] - seen;
      sums.add(innovation, heater, room, total);
      seen += weight * innovation;
      room -= weight * room;
      heater -= weight * heater;
      variance *= 1 - weight;
    }
    return sums.point(logTau);
  }

  /** The normal equations of the least-squares fit to the innovations. */
  private static final class Sums {
    private final boolean freeGain;
    private double yy;
    private double yh;
    private double yr;
    private double hh;
    private double hr;
    private double rr;
    private double logTotals;
    private int count;

    Sums(boolean freeGain) {
      this.freeGain = freeGain;
    }

    void add(double innovation, double heater, double room, double total) {
      double y = freeGain ? innovation : innovation - room;
      double w = 1 / total;
      yy += w * y * y;
      yh += w * y * heater;
      hh += w * heater * heater;
      if (freeGain) {
        yr += w * y * room;
        hr += w * heater * room;
        rr += w * room * room;
      }
      logTotals += Math.log(total);
      count++;
    }

    Point point(double logTau) {
      double determinant = freeGain ? hh * rr - hr * hr : hh;
      double rise = freeGain ? (yh * rr - yr * hr) / determinant : yh / hh;
      double gain = freeGain ? (yr * hh - yh * hr) / determinant : 1;
      double rest = yy - rise * yh - (freeGain ? gain * yr : 0);
      int freedom = Math.max(1, count - (freeGain ? 4 : 3));
      double variance = Math.max(rest, 1e-12) / freedom;
      double likelihood = -0.5 * (count * Math.log(variance) + logTotals);
      double riseError = Math.sqrt(variance * (freeGain ? rr / determinant : 1 / hh));
      double gainError = freeGain ? Math.sqrt(variance * hh / determinant) : 0;
      boolean sound = determinant > 0 && Double.isFinite(likelihood);
      return new Point(
          logTau,
          sound ? likelihood : Double.NEGATIVE_INFINITY,
          new double[] {rise, gain},
          new double[] {riseError, gainError});
    }
  }
}
