package tepidarium.stats;

import java.util.Arrays;
import java.util.DoubleSummaryStatistics;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Searches the maximum of the likelihood of interval-censored rows, and checks whether it
 * identifies the parameters.
 */
final class LikelihoodSearch {
  /** Smaller differences of log-likelihood count as equal. */
  private static final double TIE = 1e-5;

  private static final double FLAT = 1e-7;

  private LikelihoodSearch() {}

  /** Searches from each start; null if the likelihood is 0 at all of them. */
  static Maximum.@Nullable Top highest(IntervalLikelihood likelihood, List<double[]> starts) {
    Maximum.Top best = null;
    for (double[] start : starts) {
      if (Double.isFinite(likelihood.value(start))) {
        Maximum.Top found = Maximum.newton(likelihood, start);
        if (best == null
            || found.value() > best.value() + TIE
            || (found.level() && !best.level() && found.value() > best.value() - TIE)) {
          best = found;
        }
      }
    }
    return best;
  }

  /**
   * Returns why the rows do not identify the parameters; null if they do.
   *
   * @param top the result of {@link #highest}
   */
  static @Nullable NoFit whyNotIdentified(
      TimeModel model,
      List<Censored> rows,
      IntervalLikelihood likelihood,
      Maximum.@Nullable Top top) {
    if (top == null) {
      return NoFit.FLAT;
    }
    Degenerate edges = new Degenerate(model, rows);
    if (edges.withoutSpread() > top.value() - TIE) {
      return rows.stream().filter(row -> !row.open()).count() == 1
          ? NoFit.SAME_CHECKS
          : NoFit.NEIGHBOURING_CHECKS;
    }
    if (model.withFinalFraction() && atItsBound(model.family(), rows, top)) {
      return NoFit.ON_BOUND;
    }
    if (edges.withoutEnd() > top.value() - TIE) {
      return NoFit.ENDLESS_SPREAD;
    }
    return top.level() && curved(likelihood, top.at()) ? null : NoFit.FLAT;
  }

  private static boolean atItsBound(TimeFamily family, List<Censored> rows, Maximum.Top top) {
    Maximum.Top without = withoutFinalFraction(family, rows);
    return without != null && without.value() > top.value() - TIE;
  }

  /** The maximum for a final fraction of 1; null if the likelihood is 0 at all starts. */
  static Maximum.@Nullable Top withoutFinalFraction(TimeFamily family, List<Censored> rows) {
    TimeModel whole = new TimeModel(family, false);
    return highest(new IntervalLikelihood(whole, rows), Starts.of(whole, rows));
  }

  /** Whether the log-likelihood is curved downwards in every direction. */
  private static boolean curved(IntervalLikelihood likelihood, double[] at) {
    DoubleSummaryStatistics bends =
        Arrays.stream(Maximum.curvature(likelihood, at).getEigenvalues())
            .map(value -> -value)
            .summaryStatistics();
    return bends.getMin() > FLAT * Math.max(0, bends.getMax());
  }
}
