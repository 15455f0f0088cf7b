package tepidarium.heat;

import java.util.Arrays;
import java.util.OptionalDouble;

/**
 * A place as a first-order thermal body: dT/dt = (gain · room − T + rise · on) / τ, with the room
 * following a straight line between readings, fitted by weighted least squares. What the model
 * leaves out (draughts, the lid, somebody in the room) wanders and dies away with the time
 * constant; the sensor adds noise to each reading. So errors of neighbouring readings are alike,
 * and the likelihood is that of the innovations of a Kalman filter, for which rise and gain are
 * linear and both variances follow from the data.
 *
 * <p>Source: Madsen and Holst, Energy and Buildings 22 (1995) 67-79; Harvey, Forecasting,
 * Structural Time Series Models and the Kalman Filter (1989). Intervals are those of the profile
 * likelihood (95 %: within 1.92 of the maximum), so that one without an end says that the figure is
 * not determined.
 */
final class ThermalFit {
  /** Half the 95 % point of χ² with one degree of freedom, and half the 99 % point. */
  static final double DROP_95 = 1.9207;

  static final double DROP_99 = 3.3174;

  private static final int GRID = 32;
  private static final int RATIO_GRID = 12;
  private static final int REFINEMENTS = 18;
  private static final double SHORTEST_HOURS = 0.05;
  private static final double LONGEST_SPANS = 20;
  private static final double LEAST_LOG_RATIO = Math.log(1e-4);
  private static final double MOST_LOG_RATIO = Math.log(1e7);
  private static final double GOLDEN = (Math.sqrt(5) - 1) / 2;

  /**
   * A figure with an interval; one without an end is NaN there.
   *
   * @param low NaN where the data set no lower limit
   * @param high NaN where they set no upper one
   */
  record Range(double value, double low, double high) {
    boolean isBounded() {
      return !Double.isNaN(low) && !Double.isNaN(high);
    }
  }

  /** The likelihood for one time constant, with the best of all else. */
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
    double longest = LONGEST_SPANS * Math.max(1, record.hours[record.size() - 1]);
    double low = Math.log(SHORTEST_HOURS);
    double step = (Math.log(longest) - low) / (GRID - 1);
    this.logTaus = new double[GRID];
    Arrays.setAll(logTaus, i -> low + i * step);
    this.profile = Arrays.stream(logTaus).mapToObj(this::point).toArray(Point[]::new);
    this.best = refined();
  }

  /**
   * Fits a record.
   *
   * @param on for each sample, whether (1 or 0) the heater was on before it
   * @param freeGain whether to fit how far the place follows the room, else it follows it fully
   */
  static ThermalFit of(TrialRecord record, double[] on, boolean freeGain) {
    return new ThermalFit(record, on, freeGain);
  }

  private Point refined() {
    int top = 0;
    for (int i = 1; i < GRID; i++) {
      top = profile[i].logLikelihood > profile[top].logLikelihood ? i : top;
    }
    double from = logTaus[Math.max(0, top - 1)];
    double to = logTaus[Math.min(GRID - 1, top + 1)];
    Point found = profile[top];
    for (int i = 0; i < REFINEMENTS; i++) {
      Point a = point(to - GOLDEN * (to - from));
      Point b = point(from + GOLDEN * (to - from));
      if (a.logLikelihood > b.logLikelihood) {
        to = b.logTau;
      } else {
        from = a.logTau;
      }
      Point better = a.logLikelihood > b.logLikelihood ? a : b;
      found = better.logLikelihood > found.logLikelihood ? better : found;
    }
    return found;
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

  /** Where the profile falls by so much from its top, going down or up; empty if it never does. */
  private OptionalDouble edge(int direction, double drop) {
    double wanted = best.logLikelihood - drop;
    double inside = best.logTau;
    int i = direction > 0 ? 0 : GRID - 1;
    while (i >= 0 && i < GRID) {
      if (direction * (logTaus[i] - best.logTau) > 0) {
        if (profile[i].logLikelihood < wanted) {
          return OptionalDouble.of(bisected(inside, logTaus[i], wanted));
        }
        inside = logTaus[i];
      }
      i += direction;
    }
    return OptionalDouble.empty();
  }

  private double bisected(double insideAt, double outsideAt, double wanted) {
    double inside = insideAt;
    double outside = outsideAt;
    for (int i = 0; i < 14; i++) {
      double middle = (inside + outside) / 2;
      if (point(middle).logLikelihood >= wanted) {
        inside = middle;
      } else {
        outside = middle;
      }
    }
    return (inside + outside) / 2;
  }

  /** The rise above the room with the heater on all the time, °C. */
  Range rise() {
    return linear(0, DROP_95);
  }

  /** How far the place follows the room: 1 fully, 0 not at all; only where it was left free. */
  Range gain(double drop) {
    return linear(1, drop);
  }

  /** All values that are likely enough with one time constant or another. */
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
    double step = (MOST_LOG_RATIO - LEAST_LOG_RATIO) / (RATIO_GRID - 1);
    Point found = at(logTau, LEAST_LOG_RATIO);
    double centre = LEAST_LOG_RATIO;
    for (int i = 1; i < RATIO_GRID; i++) {
      Point next = at(logTau, LEAST_LOG_RATIO + i * step);
      if (next.logLikelihood > found.logLikelihood) {
        found = next;
        centre = LEAST_LOG_RATIO + i * step;
      }
    }
    double from = centre - step;
    double to = centre + step;
    for (int i = 0; i < 9; i++) {
      double left = to - GOLDEN * (to - from);
      double right = from + GOLDEN * (to - from);
      Point a = at(logTau, left);
      Point b = at(logTau, right);
      if (a.logLikelihood > b.logLikelihood) {
        to = right;
      } else {
        from = left;
      }
      Point better = a.logLikelihood > b.logLikelihood ? a : b;
      found = better.logLikelihood > found.logLikelihood ? better : found;
    }
    return found;
  }

  /**
   * The likelihood for a time constant and a ratio of variances. The filter runs on the readings
   * and on what room and heater would do alone, since all of it is linear; rise and gain then
   * follow by least squares from the innovations.
   *
   * @param logRatio logarithm of the variance of what wanders over that of the sensor's noise
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

  /** Normal equations of the innovations. */
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
