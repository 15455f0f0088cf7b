package tepidarium.stats;

/** The logit of a fraction p, ln(p / (1 − p)), and its inverse. */
public final class Logit {
  private Logit() {}

  /**
   * The logit.
   *
   * @param fraction 0 to 1; the logits of the ends are infinite
   */
  static double of(double fraction) {
    return Math.log(fraction / (1 - fraction));
  }

  /** The fraction that has this logit. */
  static double fraction(double logit) {
    return 1 / (1 + Math.exp(-logit));
  }

  /** ln(1 + exp(x)), without overflow for large x. */
  public static double logOnePlusExp(double x) {
    return x > 0 ? x + Math.log1p(Math.exp(-x)) : Math.log1p(Math.exp(x));
  }
}
