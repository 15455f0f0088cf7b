package tepidarium.germination;

import java.util.List;
import java.util.Optional;
import org.apache.commons.statistics.distribution.TDistribution;
import tepidarium.stats.ConfidenceInterval;

/**
 * Estimates the base temperature by linear regression: below the optimum, the germination rate 1/t
 * is linear in temperature, 1/t = (T − base) / θ. Source: Garcia-Huidobro, Monteith and Squire, J.
 * Exp. Bot. 33 (1982) 288-296; interval of the base after Fieller, J. R. Stat. Soc. B 16 (1954)
 * 175-185.
 *
 * @param baseC temperature at which the line has rate 0, °C
 * @param baseError standard error of the base by the delta method, °C
 * @param baseLimits 95 % interval of the base, °C; an end is infinite if the slope could be 0
 * @param theta heat above the base until germination, °C × unit of the times
 * @param thetaError standard error of {@code theta} by the delta method
 * @param rSquared coefficient of determination, 0 to 1
 */
public record RateRegression(
    double baseC,
    double baseError,
    ConfidenceInterval baseLimits,
    double theta,
    double thetaError,
    double rSquared) {
  /** Least number of different temperatures; common practice, no source. */
  public static final int MIN_TEMPERATURES = 4;

  /**
   * A time to germination at one temperature.
   *
   * @param temperatureC mean temperature, °C, below the optimum
   * @param time time to germination, above 0
   */
  public record Point(double temperatureC, double time) {
    public Point {
      if (!(time > 0) || !Double.isFinite(temperatureC)) {
        throw new IllegalArgumentException("the time to germination must be above 0, not " + time);
      }
    }
  }

  /**
   * Fits the line. Empty for fewer than four temperatures, or if the rate does not rise with
   * temperature.
   */
  public static Optional<RateRegression> of(List<Point> points) {
    int n = points.size();
    long temperatures = points.stream().mapToDouble(Point::temperatureC).distinct().count();
    if (temperatures < MIN_TEMPERATURES) {
      return Optional.empty();
    }
    double meanX = points.stream().mapToDouble(Point::temperatureC).sum() / n;
    double meanY = points.stream().mapToDouble(p -> 1 / p.time()).sum() / n;
    double xx = 0;
    double xy = 0;
    double yy = 0;
    for (Point p : points) {
      double x = p.temperatureC() - meanX;
      double y = 1 / p.time() - meanY;
      xx += x * x;
      xy += x * y;
      yy += y * y;
    }
    double slope = xy / xx;
    if (!(slope > 0)) {
      return Optional.empty();
    }
    double residual = Math.max(0, yy - slope * xy) / (n - 2);
    double slopeError = Math.sqrt(residual / xx);
    double meanAboveBase = meanY / slope;
    return Optional.of(
        new RateRegression(
            meanX - meanAboveBase,
            Math.sqrt(residual / n + residual / xx * meanAboveBase * meanAboveBase) / slope,
            fieller(n, meanX, meanY, xx, slope, residual),
            1 / slope,
            slopeError / (slope * slope),
            yy == 0 ? 1 : slope * xy / yy));
  }

  /** The interval of the base: all d = mean − base with (ȳ − slope d)² ≤ t² s² (1/n + d²/Sxx). */
  private static ConfidenceInterval fieller(
      int n, double meanX, double meanY, double xx, double slope, double residual) {
    double t =
        TDistribution.of(n - 2).inverseCumulativeProbability((1 + ConfidenceInterval.LEVEL) / 2);
    double a = slope * slope - t * t * residual / xx;
    double c = meanY * meanY - t * t * residual / n;
    double b = meanY * slope;
    double root = b * b - a * c;
    if (a > 0) {
      double half = Math.sqrt(Math.max(0, root));
      return new ConfidenceInterval(meanX - (b + half) / a, meanX - (b - half) / a);
    }
    // The slope could be 0: the interval has no lower end.
    double high = root >= 0 && a < 0 ? meanX - (b - Math.sqrt(root)) / a : Double.POSITIVE_INFINITY;
    return new ConfidenceInterval(Double.NEGATIVE_INFINITY, high);
  }
}
