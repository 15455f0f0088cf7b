package tepidarium.stats;

/**
 * Calculates means over a straight line between two values. The crossing of a limit is exact. Every
 * method takes the values at both ends in the same unit and returns finite numbers for finite
 * input. Source: elementary integration; the same rule as A(lower) − A(upper) for horizontal
 * cut-offs in Allen, Environmental Entomology 5 (1976) 388-396.
 */
public final class Linear {
  private Linear() {}

  /** The mean of max(0, value − limit) along the line, in the unit of the values. */
  public static double meanAbove(double start, double end, double limit) {
    double a = start - limit;
    double b = end - limit;
    if (a <= 0 && b <= 0) {
      return 0;
    }
    if (a >= 0 && b >= 0) {
      return (a + b) / 2;
    }
    double peak = Math.max(a, b);
    return peak * peak / (2 * Math.abs(b - a));
  }

  /** The mean of max(0, limit − value) along the line, in the unit of the values. */
  public static double meanBelow(double start, double end, double limit) {
    return meanAbove(-start, -end, -limit);
  }

  /** The part of the line, 0 to 1, that lies strictly above the limit. */
  public static double shareAbove(double start, double end, double limit) {
    boolean startAbove = start > limit;
    boolean endAbove = end > limit;
    if (startAbove && endAbove) {
      return 1;
    }
    if (!startAbove && !endAbove) {
      return 0;
    }
    double crossing = crossing(start, end, limit);
    return startAbove ? crossing : 1 - crossing;
  }

  /** The position of the crossing along the line, 0 to 1. The ends must lie on either side. */
  public static double crossing(double start, double end, double limit) {
    return (limit - start) / (end - start);
  }
}
