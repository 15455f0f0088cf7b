package tepidarium.germination;

import java.util.Arrays;
import tepidarium.reading.InvalidInput;

/**
 * What a species profile says of a species, with its unit and the range in which it makes sense.
 */
public enum Trait {
  /** Below it, seeds gain nothing. */
  BASE("base", -20, 60, "°C"),
  /** At it they germinate fastest. */
  OPTIMUM("optimum", -20, 80, "°C"),
  /** Above it, seeds gain no more than at it. */
  CEILING("ceiling", -20, 80, "°C"),
  /** From sowing to the first germinated seed, usually. */
  FIRST_DAYS("firstDays", 0, 3_650, "days"),
  /** From sowing to when a grower usually gives up. */
  GIVE_UP_DAYS("giveUpDays", 1, 3_650, "days"),
  /** Of the seeds sown, how many usually germinate. */
  FRACTION("fraction", 0, 1, ""),
  /** Root length at which a germinated seed is potted on. */
  ROOT_CM("rootCm", 0, 100, "cm"),
  /** How long seed keeps after it was gathered. */
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
   * The trait with that key.
   *
   * @throws InvalidInput naming all keys when there is none
   */
  public static Trait ofKey(String key) {
    return Arrays.stream(values())
        .filter(trait -> trait.key.equals(key))
        .findFirst()
        .orElseThrow(
            () ->
                new InvalidInput(
                    "a species has no \""
                        + key
                        + "\"; it has "
                        + String.join(", ", Arrays.stream(values()).map(Trait::key).toList())));
  }

  void check(double value) {
    Require.within(key, value, least, most, unit);
  }
}
