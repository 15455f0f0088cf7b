package tepidarium.germination;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.numbers.gamma.LogGamma;
import tepidarium.stats.Logit;

/**
 * Calculates the probability that at least the wanted number of seeds of the next lot germinate,
 * for any number sown. S(p) is the probability that the fraction of the lot is above p. The result
 * is the mean of S(B) over B ~ Beta(wanted, n − wanted + 1), because P(X ≥ wanted | p) is the
 * distribution function of B at p.
 *
 * <p>The integral runs over logit p in cells of half a standard deviation of logit B, by Simpson's
 * rule. A cell in which S is not nearly linear is halved. Values of S are cached, because S is
 * expensive and does not depend on n. Used by one thread.
 */
final class NextLotTail {
  private static final double LOG_NEGLIGIBLE = -30;
  private static final double STRAIGHT = 5e-3;
  private static final double STEP = 0.1;
  private static final int MAX_HALVINGS = 14;

  private record Point(double logit, double above) {}

  private record Piece(Point from, Point middle, Point to) {}

  private final NextLot lot;
  private final int wanted;
  private final double cell;
  private final double tolerance;
  private final Map<Long, List<Piece>> cells = new HashMap<>();
  private final Map<Long, Point> edges = new HashMap<>();

  NextLotTail(NextLot lot, int wanted, double confidence) {
    this.lot = lot;
    this.wanted = wanted;
    this.cell = 0.5 / Math.sqrt(wanted);
    this.tolerance = STRAIGHT * (1 - confidence);
  }

  /**
   * The start of a search: wanted seeds divided by the fraction that is exceeded with this
   * confidence.
   */
  double start(double confidence) {
    double low = -30;
    double high = 30;
    while (high - low > cell / 4) {
      double middle = (low + high) / 2;
      if (lot.above(middle) < confidence) {
        high = middle;
      } else {
        low = middle;
      }
    }
    return wanted * (1 + Math.exp(-low));
  }

  /** The probability that at least {@code wanted} of the sown seeds germinate. */
  double atLeast(long seeds) {
    if (seeds < wanted) {
      return 0;
    }
    double a = wanted;
    double b = seeds - wanted + 1.0;
    double logConstant = LogGamma.value(a + b) - LogGamma.value(a) - LogGamma.value(b);
    long top = (long) Math.floor(Math.log(a / b) / cell);
    Sum sum = new Sum(a, b, logConstant);
    double highest = sum.logDensity(Math.log(a / b));
    for (long i = top; sum.logDensity(i * cell) > highest + LOG_NEGLIGIBLE || i == top; i--) {
      sum.add(cell(i));
    }
    for (long i = top + 1; sum.logDensity(i * cell) > highest + LOG_NEGLIGIBLE; i++) {
      sum.add(cell(i));
    }
    return sum.weighted / sum.weights;
  }

  private List<Piece> cell(long index) {
    return cells.computeIfAbsent(
        index,
        i -> {
          List<Piece> pieces = new ArrayList<>();
          fill(pieces, edge(i), edge(i + 1), 0);
          return pieces;
        });
  }

  private Point edge(long index) {
    return edges.computeIfAbsent(index, i -> point(i * cell));
  }

  private Point point(double logit) {
    return new Point(logit, lot.above(logit));
  }

  private void fill(List<Piece> pieces, Point from, Point to, int halvings) {
    Point middle = point((from.logit + to.logit) / 2);
    boolean straight = Math.abs(middle.above - (from.above + to.above) / 2) <= tolerance;
    // S is decreasing: if it is nearly equal at both ends, there is no step between them.
    boolean flat = from.above - to.above <= STEP || halvings > 0;
    if ((straight && flat) || halvings == MAX_HALVINGS) {
      pieces.add(new Piece(from, middle, to));
    } else {
      fill(pieces, from, middle, halvings + 1);
      fill(pieces, middle, to, halvings + 1);
    }
  }

  /** Integrates the density of logit B by Simpson's rule, with and without the factor S. */
  private static final class Sum {
    private final double a;
    private final double b;
    private final double logConstant;
    private double weighted;
    private double weights;

    Sum(double a, double b, double logConstant) {
      this.a = a;
      this.b = b;
      this.logConstant = logConstant;
    }

    /** The logarithm of the density of logit B, for B ~ Beta(a, b). */
    double logDensity(double logit) {
      return logConstant + a * logit - (a + b) * Logit.logOnePlusExp(logit);
    }

    void add(List<Piece> pieces) {
      for (Piece piece : pieces) {
        double sixth = (piece.to.logit - piece.from.logit) / 6;
        add(sixth, piece.from);
        add(4 * sixth, piece.middle);
        add(sixth, piece.to);
      }
    }

    private void add(double width, Point point) {
      double weight = width * Math.exp(logDensity(point.logit));
      weights += weight;
      weighted += weight * point.above;
    }
  }
}
