package tepidarium.stats;

/**
 * A distribution of times, with or without a part that never meets its event.
 *
 * @param withFinalFraction whether only a fraction of all, to be fitted, ever meets its event (a
 *     cure model; Farewell, Biometrics 38 (1982) 1041-1046); else all do in the end
 */
public record TimeModel(TimeFamily family, boolean withFinalFraction) {
  /** Its name in one word. */
  public String word() {
    return family.word() + (withFinalFraction ? "WithFinalFraction" : "");
  }

  /** How many numbers are fitted. */
  public int parameters() {
    return withFinalFraction ? 3 : 2;
  }
}
