package tepidarium.stats;

/**
 * A model of event times, with or without a fraction that never has its event.
 *
 * @param withFinalFraction whether the fraction that ever has its event is fitted (a cure model;
 *     Farewell, Biometrics 38 (1982) 1041-1046); otherwise it is 1
 */
public record TimeModel(TimeFamily family, boolean withFinalFraction) {
  /** Its name in the API. */
  public String word() {
    return family.word() + (withFinalFraction ? "WithFinalFraction" : "");
  }

  /** The number of fitted parameters. */
  public int parameters() {
    return withFinalFraction ? 3 : 2;
  }
}
