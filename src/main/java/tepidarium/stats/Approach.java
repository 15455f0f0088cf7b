package tepidarium.stats;

import java.util.Arrays;
import java.util.OptionalDouble;

/**
 * Fits a first-order approach to a steady value: y(t) = steady + (start − steady)·exp(−t/τ). A body
 * cools or warms like this (Newton's law of cooling, elementary).
 *
 * <p>For each τ the fit is linear least squares in start and steady. τ is searched from a tenth of
 * the length of the record to twenty times the length. With a larger τ the curve is a straight line
 * within the record, and it is fitted as one. Outliers have less weight. Source of the weights:
 * Huber, Annals of Mathematical Statistics 35 (1964) 73-101, tuning constant 1.345. Their scale is
 * 1.4826 times the median of the absolute residuals.
 *
 * @param start value at t = 0
 * @param steady limit for large t
 * @param timeConstant time constant τ, in the unit of the times, above 0
 * @param residual standard deviation of the points about the curve, with n − 3 degrees of freedom
 */
public record Approach(double start, double steady, double timeConstant, double residual) {
  private static final int MIN_POINTS = 4;
  private static final int GRID = 40;
  private static final double LOG_TIME_CONSTANT_ACCURACY = 1e-7;
  private static final int REWEIGHTINGS = 3;
  private static final double HUBER = 1.345;
  private static final double SD_FROM_MEDIAN = 1.4826;

  /**
   * Fits the curve.
   *
   * @param t ascending times from 0 on, at least four
   * @param y the values at them
   * @throws IllegalArgumentException when there are too few points, or they span no time
   */
  public static Approach fit(double[] t, double[] y) {
    double length = t.length < MIN_POINTS ? 0 : t[t.length - 1] - t[0];
    if (t.length != y.length || !(length > 0)) {
      throw new IllegalArgumentException("at least four points at different times are needed");
    }
    double[] weights = new double[t.length];
    Arrays.fill(weights, 1);
    Line best = search(t, y, weights, length);
    for (int i = 0; i < REWEIGHTINGS; i++) {
      weights = weights(best, t, y);
      best = search(t, y, weights, length);
    }
    double sum = 0;
    for (int i = 0; i < t.length; i++) {
      double off = y[i] - best.at(t[i]);
      sum += off * off;
    }
    double residual = Math.sqrt(sum / (t.length - 3));
    return new Approach(best.offset + best.factor, best.offset, best.tau, residual);
  }

  /** The curve offset + factor·exp(−t/τ), and its weighted sum of squares. */
  private record Line(double tau, double offset, double factor, double squares) {
    double at(double t) {
      return offset + factor * Math.exp(-t / tau);
    }
  }

  private static Line search(double[] t, double[] y, double[] weights, double length) {
    double low = Math.log(length / 10);
    double high = Math.log(length * 20);
    double step = (high - low) / GRID;
    int best = 0;
    double least = Double.POSITIVE_INFINITY;
    for (int i = 0; i <= GRID; i++) {
      double squares = line(t, y, weights, Math.exp(low + i * step)).squares;
      if (squares < least) {
        least = squares;
        best = i;
      }
    }
    return refine(
        t, y, weights, low + Math.max(0, best - 1) * step, low + Math.min(GRID, best + 1) * step);
  }

  private static Line refine(double[] t, double[] y, double[] weights, double low, double high) {
    double logTau =
        Peak.of(
            x -> -line(t, y, weights, Math.exp(x)).squares, low, high, LOG_TIME_CONSTANT_ACCURACY);
    return line(t, y, weights, Math.exp(logTau));
  }

  /** Weighted linear least squares in exp(−t/τ). */
  private static Line line(double[] t, double[] y, double[] weights, double tau) {
    double[] decay = new double[t.length];
    double sum = 0;
    double meanX = 0;
    double meanY = 0;
    for (int i = 0; i < t.length; i++) {
      decay[i] = Math.exp(-t[i] / tau);
      sum += weights[i];
      meanX += weights[i] * decay[i];
      meanY += weights[i] * y[i];
    }
    meanX /= sum;
    meanY /= sum;
    double xx = 0;
    double xy = 0;
    double yy = 0;
    for (int i = 0; i < t.length; i++) {
      double x = decay[i] - meanX;
      xx += weights[i] * x * x;
      xy += weights[i] * x * (y[i] - meanY);
      yy += weights[i] * (y[i] - meanY) * (y[i] - meanY);
    }
    double factor = xx > 0 ? xy / xx : 0;
    return new Line(tau, meanY - factor * meanX, factor, yy - factor * xy);
  }

  private static double[] weights(Line line, double[] t, double[] y) {
    double[] off = new double[t.length];
    for (int i = 0; i < t.length; i++) {
      off[i] = Math.abs(y[i] - line.at(t[i]));
    }
    double[] sorted = off.clone();
    Arrays.sort(sorted);
    double bound = HUBER * SD_FROM_MEDIAN * sorted[sorted.length / 2];
    double[] weights = new double[t.length];
    for (int i = 0; i < t.length; i++) {
      weights[i] = off[i] <= bound || bound == 0 ? 1 : bound / off[i];
    }
    return weights;
  }

  public double at(double t) {
    return steady + (start - steady) * Math.exp(-t / timeConstant);
  }

  /**
   * The time at which it reaches a level; empty if it never does. Negative for a level before the
   * start.
   */
  public OptionalDouble timeOf(double level) {
    double share = (level - steady) / (start - steady);
    return share > 0 && Double.isFinite(share)
        ? OptionalDouble.of(-timeConstant * Math.log(share))
        : OptionalDouble.empty();
  }
}
