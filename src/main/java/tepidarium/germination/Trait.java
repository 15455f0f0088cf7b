package tepidarium.germination;

import java.util.Arrays;
import tepidarium.reading.InvalidInput;

/** A figure of a species profile, with its unit and valid range. */
public enum Trait {
  /** Base temperature: seeds receive no heat below it. */
  BASE("base", -20, 60, "°C"),
  /** Optimum temperature: seeds germinate fastest. */
  OPTIMUM("optimum", -20, 80, "°C"),
  /** Ceiling temperature: seeds receive no more heat above it than at it. */
  CEILING("ceiling", -20, 80, "°C"),
  /** Usual days from sowing to the first germinated seed. */
  FIRST_DAYS("firstDays", 0, 3_650, "days"),
  /** Days from sowing after which growers usually give up. */
  GIVE_UP_DAYS("giveUpDays", 1, 3_650, "days"),
  /** Usual fraction of sown seeds that germinate, 0 to 1. */
  FRACTION("fraction", 0, 1, ""),
  /** Root length at which a germinated seed is potted on. */
  ROOT_CM("rootCm", 0, 100, "cm"),
  /** Days that seeds stay viable after gathering. */
  KEEPS_DAYS("keepsDays", 0, 36_500, "days");

  private final String key;
  private final double least;
  private final double most;
  private final String unit;

  Trait(String key, double least, double most, String unit) {
    this.key = key;
    this.least = least;
    this.most = most;
    this.unit = unit;
  }

  public String key() {
    return key;
  }

  /** The unit; empty for a fraction. */
  public String unit() {
    return unit;
  }

  /**
   * The trait with a key.
   *
   * @throws InvalidInput if there is none; the message lists all keys
   */
  public static Trait ofKey(String key) {
    return Arrays.stream(values())
        .filter(trait -> trait.key.equals(key))
        .findFirst()
        .orElseThrow(
            () ->
                new InvalidInput(
                    "there is no species figure \""
                        + key
                        + "\"; the figures are "
                        + String.join(", ", Arrays.stream(values()).map(Trait::key).toList())));
  }

  void check(double value) {
    Require.within(key, value, least, most, unit);
  }
}
