package tepidarium.germination;

import tepidarium.stats.NoFit;

/**
 * Why a fit has no final fraction, that is, why it assumes that every seed germinates in the end.
 *
 * @param because why the fit with a final fraction was rejected
 * @param endsOnly true if this holds only for the ends of the interval of the median
 */
public record NoFinalFraction(NoFit because, boolean endsOnly) {
  /** The note in English, without a full stop. */
  public String words() {
    return (endsOnly ? "for the ends of its interval, " : "")
        + "the fit assumes that every seed germinates in the end, because the fit with a final "
        + "fraction was rejected: "
        + because.words();
  }
}
