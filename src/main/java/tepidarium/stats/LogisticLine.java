package tepidarium.stats;

import java.util.List;
import java.util.Optional;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.apache.commons.statistics.distribution.TDistribution;

/**
 * Logistic regression on one variable, ln(p / (1 − p)) = intercept + slope · x, fitted to groups by
 * maximum likelihood. Groups may differ by more than chance: the dispersion φ is Pearson's χ² /
 * (groups − 2). If φ is above 1, variances are multiplied by it and intervals use Student's t with
 * groups − 2 degrees of freedom. Otherwise variances and intervals are binomial. Source: McCullagh
 * and Nelder, Generalized Linear Models (1989), chapter 4; heterogeneity factor after Finney,
 * Probit Analysis (1971), chapter 4 (value from memory).
 *
 * @param centre mean of x; the line is stored relative to it
 * @param atCentre logit at the centre
 * @param varianceAtCentre variance of {@code atCentre} for a dispersion of 1
 * @param varianceOfSlope variance of the slope for a dispersion of 1
 * @param covariance covariance of both for a dispersion of 1
 * @param dispersion φ, above 0
 * @param groups number of groups, at least 3
 */
public record LogisticLine(
    double centre,
    double atCentre,
    double slope,
    double varianceAtCentre,
    double varianceOfSlope,
    double covariance,
    double dispersion,
    int groups) {
  private static final int MAX_STEPS = 50;
  private static final double CLOSE = 1e-10;

  private static final double MIN_WEIGHT = 1e-9;
  private static final double MIN_SHARE = 1e-6;
  private static final double ROUNDING = 1e-13;

  /**
   * Trials at one value of x.
   *
   * @param hits 0 to trials
   * @param trials at least 1
   */
  public record Group(double x, int hits, int trials) {
    public Group {
      if (trials < 1 || hits < 0 || hits > trials || !Double.isFinite(x)) {
        throw new IllegalArgumentException(
            "hits must be from 0 to " + trials + ", not " + hits + ", at x = " + x);
      }
    }
  }

  /**
   * Fits the line. Empty for fewer than three groups, or if the likelihood has no maximum: all
   * groups at one x, all or no hits, or hits and misses separated by one x.
   */
  public static Optional<LogisticLine> of(List<Group> groups) {
    if (groups.size() < 3) {
      return Optional.empty();
    }
    double centre = groups.stream().mapToDouble(Group::x).average().orElseThrow();
    double hits = groups.stream().mapToInt(Group::hits).sum();
    double trials = groups.stream().mapToInt(Group::trials).sum();
    double at = Math.log((hits + 0.5) / (trials - hits + 0.5));
    double slope = 0;
    for (int step = 0; step < MAX_STEPS; step++) {
      Information now = Information.of(groups, centre, at, slope);
      if (now.determinant() <= MIN_WEIGHT * now.one() * now.xx() || now.one() < MIN_WEIGHT) {
        return Optional.empty();
      }
      double up = (now.xx() * now.scoreAt() - now.x() * now.scoreSlope()) / now.determinant();
      double steeper = (now.one() * now.scoreSlope() - now.x() * now.scoreAt()) / now.determinant();
      double share = share(groups, centre, at, slope, up, steeper);
      at += share * up;
      slope += share * steeper;
      if (share * (Math.abs(up) + Math.abs(steeper)) < CLOSE) {
        return Optional.of(line(groups, centre, at, slope));
      }
    }
    return Optional.empty();
  }

  /** The step size: halved until the likelihood does not fall. */
  private static double share(
      List<Group> groups, double centre, double at, double slope, double up, double steeper) {
    double now = logLikelihood(groups, centre, at, slope);
    double share = 1;
    while (share > MIN_SHARE
        && logLikelihood(groups, centre, at + share * up, slope + share * steeper)
            < now - ROUNDING * Math.abs(now)) {
      share /= 2;
    }
    return share;
  }

  private static double logLikelihood(List<Group> groups, double centre, double at, double slope) {
    double sum = 0;
    for (Group group : groups) {
      double logit = at + slope * (group.x() - centre);
      sum -= group.hits() * Logit.logOnePlusExp(-logit);
      sum -= (group.trials() - group.hits()) * Logit.logOnePlusExp(logit);
    }
    return sum;
  }

  /** Fisher's information and the score at given parameters. */
  private record Information(
      double one, double x, double xx, double scoreAt, double scoreSlope, double pearson) {
    static Information of(List<Group> groups, double centre, double at, double slope) {
      double one = 0;
      double sumX = 0;
      double xx = 0;
      double scoreAt = 0;
      double scoreSlope = 0;
      double pearson = 0;
      for (Group group : groups) {
        double x = group.x() - centre;
        double p = Logit.fraction(at + slope * x);
        double weight = group.trials() * p * (1 - p);
        double miss = group.hits() - group.trials() * p;
        one += weight;
        sumX += weight * x;
        xx += weight * x * x;
        scoreAt += miss;
        scoreSlope += miss * x;
        pearson += weight > 0 ? miss * miss / weight : 0;
      }
      return new Information(one, sumX, xx, scoreAt, scoreSlope, pearson);
    }

    double determinant() {
      return one * xx - x * x;
    }
  }

  private static LogisticLine line(List<Group> groups, double centre, double at, double slope) {
    Information top = Information.of(groups, centre, at, slope);
    return new LogisticLine(
        centre,
        at,
        slope,
        top.xx() / top.determinant(),
        top.one() / top.determinant(),
        -top.x() / top.determinant(),
        Math.max(Double.MIN_NORMAL, top.pearson() / (groups.size() - 2)),
        groups.size());
  }

  public double intercept() {
    return atCentre - slope * centre;
  }

  /** Standard error of the slope, including the dispersion. */
  public double slopeError() {
    return Math.sqrt(factor() * varianceOfSlope);
  }

  private double factor() {
    return Math.max(1, dispersion);
  }

  /** Half-width of a 95 % interval in standard errors. */
  private double reach() {
    double level = (1 + ConfidenceInterval.LEVEL) / 2;
    return dispersion > 1
        ? TDistribution.of(groups - 2).inverseCumulativeProbability(level)
        : NormalDistribution.of(0, 1).inverseCumulativeProbability(level);
  }

  /** The 95 % interval of the slope. */
  public ConfidenceInterval slopeLimits() {
    double reach = reach() * slopeError();
    return new ConfidenceInterval(slope - reach, slope + reach);
  }

  /** The probability at x. */
  public double at(double x) {
    return Logit.fraction(atCentre + slope * (x - centre));
  }

  /** The 95 % interval of the probability at x, symmetric on the logit scale. */
  public ConfidenceInterval limitsAt(double x) {
    double from = x - centre;
    double logit = atCentre + slope * from;
    double variance = varianceAtCentre + 2 * from * covariance + from * from * varianceOfSlope;
    double reach = reach() * Math.sqrt(factor() * variance);
    return new ConfidenceInterval(Logit.fraction(logit - reach), Logit.fraction(logit + reach));
  }

  /** The x at which the probability is one half. */
  public double half() {
    return centre - atCentre / slope;
  }

  /**
   * The 95 % interval of {@link #half}; both ends are infinite if the slope could be 0. Source:
   * Fieller, J. R. Stat. Soc. B 16 (1954) 175-185.
   */
  public ConfidenceInterval halfLimits() {
    double q = reach() * reach() * factor();
    double a = slope * slope - q * varianceOfSlope;
    double b = atCentre * slope - q * covariance;
    double c = atCentre * atCentre - q * varianceAtCentre;
    if (a <= 0) {
      return new ConfidenceInterval(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);
    }
    double half = Math.sqrt(Math.max(0, b * b - a * c));
    return new ConfidenceInterval(centre + (-b - half) / a, centre + (-b + half) / a);
  }
}
