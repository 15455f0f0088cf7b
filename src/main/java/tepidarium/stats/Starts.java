package tepidarium.stats;

import java.util.ArrayList;
import java.util.List;

/** Chooses starts of a likelihood search: the mean of the interval middles, with three spreads. */
final class Starts {
  private static final double[] WIDTHS = {1, 0.35, 2.5};

  private Starts() {}

  static List<double[]> of(TimeModel model, List<Censored> rows) {
    double sum = 0;
    double squares = 0;
    double met = 0;
    for (Censored row : rows) {
      if (!row.open()) {
        double middle = Math.log(row.left() == 0 ? row.right() / 2 : middle(row));
        sum += row.count() * middle;
        squares += row.count() * middle * middle;
        met += row.count();
      }
    }
    double mean = sum / met;
    double spread = Math.sqrt(Math.max(0.01, squares / met - mean * mean));
    double share = Math.min(0.98, met / Censored.count(rows));
    List<double[]> starts = new ArrayList<>();
    for (double width : WIDTHS) {
      if (model.withFinalFraction()) {
        for (double fraction : new double[] {share, (1 + share) / 2}) {
          starts.add(new double[] {mean, Math.log(width * spread), Logit.of(fraction)});
        }
      } else {
        double later = mean + (1 - share) * 2 * spread;
        starts.add(new double[] {later, Math.log(width * spread + (1 - share))});
      }
    }
    return starts;
  }

  private static double middle(Censored row) {
    return Math.sqrt(row.left() * row.right());
  }
}
