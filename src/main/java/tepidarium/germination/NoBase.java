package tepidarium.germination;

import java.util.Locale;

/** Why the base temperature of a species is not identified by likelihood. */
public enum NoBase {
  UNIDENTIFIED(
      "the counts do not identify the heat that seeds need at any base temperature in the range"),
  EVERY_BASE(
      "every base temperature in the range fits the counts; sowings at different temperatures are"
          + " needed"),
  RANGE_END("the likelihood is highest at the end of the range of base temperatures"),
  TOO_COLD("no group with known temperatures was warm enough to estimate the base temperature");

  private final String words;

  NoBase(String words) {
    this.words = words;
  }

  /** The reason in English, without a full stop. */
  public String words() {
    return words;
  }

  /** The code in the API, such as {@code every-base}. */
  public String key() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
