package tepidarium.stats;

import java.util.Arrays;
import java.util.List;

/**
 * Calculates the log-likelihood of interval-censored rows: Σ count · ln(p (F(right) − F(left))) for
 * observed events, and Σ count · ln(1 − p F(left)) for right-censored rows. Source: Turnbull,
 * Journal of the Royal Statistical Society B 38 (1976) 290-295, with F parametric and p the
 * fraction that ever has its event.
 *
 * <p>The fitted parameters are μ, ln σ and, with a final fraction, ln(p / (1 − p)).
 */
final class IntervalLikelihood implements Maximum.Smooth {
  private final TimeFamily family;
  private final boolean withFraction;
  private final double[] logLeft;
  private final double[] logRight;
  private final boolean[] open;
  private final double[] count;

  /** Takes rows that all have information. */
  IntervalLikelihood(TimeModel model, List<Censored> rows) {
    this.family = model.family();
    this.withFraction = model.withFinalFraction();
    int n = rows.size();
    this.logLeft = new double[n];
    this.logRight = new double[n];
    this.open = new boolean[n];
    this.count = new double[n];
    for (int i = 0; i < n; i++) {
      Censored row = rows.get(i);
      logLeft[i] = Math.log(row.left());
      logRight[i] = Math.log(row.right());
      open[i] = row.open();
      count[i] = row.count();
    }
  }

  double value(double[] x) {
    return value(x, new double[x.length]);
  }

  @Override
  public double value(double[] x, double[] slope) {
    double sigma = Math.exp(x[1]);
    double p = withFraction ? Logit.fraction(x[2]) : 1;
    double q = withFraction ? Logit.fraction(-x[2]) : 0;
    Arrays.fill(slope, 0);
    double sum = 0;
    for (int i = 0; i < count.length; i++) {
      double left = (logLeft[i] - x[0]) / sigma;
      double leftDensity = density(left);
      if (open[i]) {
        double stays = q + p * family.above(left);
        sum += count[i] * Math.log(stays);
        double weight = count[i] * p / stays;
        slope[0] += weight * leftDensity / sigma;
        slope[1] += weight * times(left, leftDensity);
        if (withFraction) {
          slope[2] -= weight * q * family.below(left);
        }
      } else {
        double right = (logRight[i] - x[0]) / sigma;
        double rightDensity = density(right);
        double between = family.between(left, right);
        sum += count[i] * Math.log(p * between);
        double weight = count[i] / between;
        slope[0] -= weight * (rightDensity - leftDensity) / sigma;
        slope[1] -= weight * (times(right, rightDensity) - times(left, leftDensity));
        if (withFraction) {
          slope[2] += count[i] * q;
        }
      }
    }
    return Double.isNaN(sum) ? Double.NEGATIVE_INFINITY : sum;
  }

  private double density(double w) {
    return Double.isInfinite(w) ? 0 : family.density(w);
  }

  private static double times(double w, double density) {
    return density == 0 ? 0 : w * density;
  }
}
